package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import trestle.server.TheClock;
import trestle.web.Filing;
import trestle.web.Viewer;

/** Files a batch of events in one transaction, each at the time it tells. */
@ApplicationScoped
public class Telling {
  @Inject TheClock clock;
  @Inject DemoRepository repository;

  @Filing
  public void batch(Viewer viewer, List<Event> events) throws Exception {
    for (Event event : events) {
      clock.telling(event.recordedAt(), event.filing());
      repository.forget();
    }
  }
}
