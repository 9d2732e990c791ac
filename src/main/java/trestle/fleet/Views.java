package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.MultivaluedMap;
import java.time.InstantSource;
import java.time.LocalDate;
import trestle.ledger.KnownThen;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Reading;
import trestle.web.Viewer;

/** Which day a page shows, and what was known when. */
@ApplicationScoped
public class Views {
  @Inject KnownThen knownThen;
  @Inject InstantSource clock;

  /** What a page was asked to show. */
  public AsAt asked(Viewer viewer, MultivaluedMap<String, String> query) {
    return asked(viewer, Form.of(query), viewer.dateOf(clock.instant()));
  }

  /** The same of a page that asks for more than a day. */
  public AsAt asked(Viewer viewer, Form form, LocalDate today) {
    return AsAt.of(form, today, day -> knownOn(viewer, day));
  }

  /** The last ledger sequence that had been filed at the end of a day of the operator. */
  @Reading
  public long knownOn(Viewer viewer, LocalDate day) {
    return knownThen.before(
        viewer.operatorId(), day.plusDays(1).atStartOfDay(viewer.zone()).toInstant());
  }
}
