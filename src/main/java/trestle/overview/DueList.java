package trestle.overview;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import trestle.standing.AircraftStanding;

/** What falls due on the fleet, what bites first on top. */
record DueList(List<Line> lines) {

  /** One due item of one aircraft. */
  record Line(AircraftOverview aircraft, DueRow row) {}

  static DueList of(FleetOverview fleet, DueFilter filter, LocalDate day) {
    return new DueList(
        fleet.aircraft().stream()
            .filter(each -> filter.takes(each.id()))
            .flatMap(each -> each.rows().stream().map(row -> new Line(each, row)))
            .filter(line -> filter.takes(line.row(), day))
            .sorted(
                Comparator.comparing((Line line) -> line.row().item(), AircraftStanding.BITES_FIRST)
                    .thenComparing(line -> line.aircraft().registration()))
            .toList());
  }
}
