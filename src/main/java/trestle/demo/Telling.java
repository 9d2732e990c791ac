package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import trestle.flights.Backlog;
import trestle.flights.JourneyLog;
import trestle.server.TheClock;
import trestle.web.Filing;
import trestle.web.Viewer;

/** Files a batch of events in one transaction, each at the time it tells. */
@ApplicationScoped
public class Telling {
  @Inject TheClock clock;
  @Inject Backlog backlog;
  @Inject JourneyLog journeyLog;
  @Inject DemoRepository repository;

  @Filing
  public void batch(Viewer viewer, List<Event> events) throws Exception {
    List<Backlog.Sheet> sheets = new ArrayList<>();
    for (Event event : events) {
      if (event instanceof Event.Flown flown) {
        sheets.add(flown.sheet());
      } else if (event instanceof Event.Filed filed) {
        file(viewer, sheets);
        clock.telling(filed.recordedAt(), filed.filing());
        repository.forget();
      }
    }
    file(viewer, sheets);
  }

  /** Reckons what was flown up to here, which filing by the sheet leaves undone. */
  @Filing
  public void reckon(Viewer viewer, Collection<UUID> aircraftIds) {
    journeyLog.rebuild(viewer, aircraftIds);
  }

  private void file(Viewer viewer, List<Backlog.Sheet> sheets) {
    if (!sheets.isEmpty()) {
      backlog.file(viewer, sheets);
      sheets.clear();
      repository.forget();
    }
  }
}
