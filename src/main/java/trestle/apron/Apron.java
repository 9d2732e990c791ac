package trestle.apron;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.flights.Flights;
import trestle.ledger.View;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What a person on the apron has to do with. */
@ApplicationScoped
public class Apron {
  /** More pages than these are not kept on a phone without having been asked for. */
  static final int MOST_AIRCRAFT = 12;

  private static final int RECENT_DAYS = 120;

  @Inject Fleet fleet;
  @Inject Flights flights;
  @Inject InstantSource clock;

  /**
   * First the aircraft that were looked at, then those whose flights the viewer reported lately,
   * the last one first.
   *
   * @param opened ids of aircraft; what is none is passed over
   */
  @Reading
  public List<AircraftSheet> likelyToFly(Viewer viewer, List<String> opened) {
    LocalDate today = viewer.dateOf(clock.instant());
    List<String> lately = new ArrayList<>(opened);
    flights
        .reportedBy(viewer, today.minusDays(RECENT_DAYS), MOST_AIRCRAFT)
        .forEach(id -> lately.add(id.toString()));
    Comparator<AircraftSheet> latelyFirst =
        Comparator.comparing(sheet -> rank(lately.indexOf(sheet.id().toString())));
    return fleet.sheets(viewer, View.asAt(today)).stream()
        .filter(sheet -> !sheet.retired())
        .sorted(latelyFirst.thenComparing(AircraftSheet::registration))
        .limit(MOST_AIRCRAFT)
        .toList();
  }

  private static int rank(int index) {
    return index < 0 ? Integer.MAX_VALUE : index;
  }
}
