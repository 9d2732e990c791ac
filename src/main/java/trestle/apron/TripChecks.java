package trestle.apron;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.defects.DefectLine;
import trestle.defects.OpenDefects;
import trestle.fleet.Revisions;
import trestle.ledger.View;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.Standings;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/** Whether an aircraft, or which of the fleet, lasts a trip. Reads; files nothing. */
@ApplicationScoped
class TripChecks {
  private static final List<String> KINDS = List.of("hire", "IFR", "night");

  @Inject Standings standings;
  @Inject Revisions revisions;
  @Inject OpenDefects defects;
  @Inject InstantSource clock;

  /** One aircraft as the page shows it before and after a trip is asked for. */
  record Ready(AircraftStanding aircraft, List<Restriction> restrictions) {

    TripCheck check(Trip trip) {
      return TripCheck.of(aircraft, restrictions, trip);
    }

    Stream<String> forbidden() {
      return Stream.concat(
          aircraft.items().stream().filter(DueItem::isMandatory).map(DueItem::forbids),
          restrictions.stream().map(Restriction::forbids));
    }
  }

  /**
   * @throws NotHere when the operator has no such aircraft
   */
  @Reading
  public Ready ready(Viewer viewer, UUID aircraftId) {
    return ready(viewer, revisions.of(viewer, List.of(aircraftId))).stream()
        .findFirst()
        .orElseThrow(() -> new NotHere("There is no such aircraft here."));
  }

  /** The whole fleet, in a number of statements that does not depend on how many there are. */
  @Reading
  public List<Ready> ready(Viewer viewer) {
    return ready(viewer, revisions.all(viewer)).stream()
        .filter(ready -> !ready.aircraft().sheet().retired())
        .toList();
  }

  private List<Ready> ready(Viewer viewer, Map<UUID, Long> current) {
    LocalDate today = viewer.dateOf(clock.instant());
    Map<UUID, List<DefectLine>> open = defects.of(viewer, current.keySet(), View.asAt(today));
    return standings.now(viewer, current, today).values().stream()
        .map(standing -> ready(standing, open))
        .sorted(Comparator.comparing(ready -> ready.aircraft().sheet().registration()))
        .toList();
  }

  private static Ready ready(AircraftStanding standing, Map<UUID, List<DefectLine>> open) {
    return new Ready(
        standing,
        open.getOrDefault(standing.sheet().id(), List.of()).stream()
            .flatMap(defect -> Restriction.of(defect).stream())
            .toList());
  }

  /** Which of the fleet lasts the trip: those first, each sort by registration. */
  static List<TripCheck> checked(List<Ready> fleet, Trip trip) {
    return fleet.stream()
        .map(ready -> ready.check(trip))
        .sorted(Comparator.comparing(TripCheck::verdict))
        .toList();
  }

  /** The kinds of flight that something recorded could forbid, the usual ones first. */
  static List<String> kinds(Collection<Ready> fleet) {
    TreeSet<String> own = new TreeSet<>();
    fleet.stream().flatMap(Ready::forbidden).forEach(own::add);
    own.remove(DueItem.ANY_FLIGHT);
    KINDS.forEach(own::remove);
    return Stream.concat(KINDS.stream(), own.stream()).toList();
  }
}
