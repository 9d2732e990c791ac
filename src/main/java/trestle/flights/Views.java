package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import trestle.ledger.Ledger;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What was known when. */
@ApplicationScoped
public class Views {
  @Inject Ledger ledger;

  /** The last ledger sequence that had been filed at the end of a day of the operator. */
  @Reading
  public long knownOn(Viewer viewer, LocalDate day) {
    return ledger.knownBy(
        viewer.operatorId(),
        day.plusDays(1).atStartOfDay(viewer.zone()).toInstant().minusNanos(1000));
  }
}
