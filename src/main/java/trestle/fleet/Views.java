package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import trestle.ledger.KnownThen;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What was known when. */
@ApplicationScoped
public class Views {
  @Inject KnownThen knownThen;

  /** The last ledger sequence that had been filed at the end of a day of the operator. */
  @Reading
  public long knownOn(Viewer viewer, LocalDate day) {
    return knownThen.before(
        viewer.operatorId(), day.plusDays(1).atStartOfDay(viewer.zone()).toInstant());
  }
}
