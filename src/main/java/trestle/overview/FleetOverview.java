package trestle.overview;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import trestle.standing.Standing;
import trestle.web.Shown;

/** The aircraft in service, those that are held first, then limited, then clear. */
record FleetOverview(List<AircraftOverview> aircraft) {
  private static final Comparator<AircraftOverview> HELD_FIRST =
      Comparator.comparing((AircraftOverview each) -> each.standing().word())
          .thenComparing(AircraftOverview::registration);

  FleetOverview {
    aircraft =
        aircraft.stream().filter(each -> !each.sheet().retired()).sorted(HELD_FIRST).toList();
  }

  /** "5 aircraft: 1 held, 1 limited; nothing recorded prevents flight of 3." */
  public String words() {
    if (aircraft.isEmpty()) {
      return "No aircraft yet.";
    }
    Map<Standing.Word, Long> count =
        aircraft.stream()
            .collect(Collectors.groupingBy(each -> each.standing().word(), Collectors.counting()));
    return Shown.plural(aircraft.size(), "aircraft", "aircraft")
        + ": "
        + Shown.count(count.getOrDefault(Standing.Word.HELD, 0L))
        + " held, "
        + Shown.count(count.getOrDefault(Standing.Word.LIMITED, 0L))
        + " limited; nothing recorded prevents flight of "
        + Shown.count(count.getOrDefault(Standing.Word.CLEAR, 0L))
        + ".";
  }
}
