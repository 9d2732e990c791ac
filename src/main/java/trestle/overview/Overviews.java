package trestle.overview;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.View;
import trestle.standing.AircraftStanding;
import trestle.standing.RevisionCache;
import trestle.standing.Standings;
import trestle.web.AsAt;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * What the fleet's and an aircraft's pages show; as at now it is kept for each revision and day.
 */
@ApplicationScoped
class Overviews {
  /** How many lines of due tables are kept. */
  private static final long MOST_ROWS = 150_000;

  @Inject Fleet fleet;
  @Inject Revisions revisions;
  @Inject Standings standings;
  @Inject Strips strips;

  private final RevisionCache<AircraftOverview> kept =
      new RevisionCache<>(MOST_ROWS, overview -> overview.rows().size());

  /** All aircraft of the operator, in a number of statements that does not depend on how many. */
  @Reading
  public FleetOverview fleet(Viewer viewer, AsAt asAt) {
    if (asAt.isNow()) {
      return new FleetOverview(
          List.copyOf(now(viewer, revisions.all(viewer), asAt.today()).values()));
    }
    View view = asAt.view();
    List<UUID> ids = fleet.sheets(viewer, view).stream().map(AircraftSheet::id).toList();
    return new FleetOverview(List.copyOf(asAt(viewer, ids, view).values()));
  }

  /** One aircraft as at now, where it is kept: found out by one statement, in no transaction. */
  public Optional<AircraftOverview> kept(Viewer viewer, UUID aircraftId, AsAt asAt) {
    if (!asAt.isNow()) {
      return Optional.empty();
    }
    OptionalLong revision = revisions.now(viewer, aircraftId);
    return revision.isEmpty()
        ? Optional.empty()
        : kept.kept(
            viewer.operatorId(), aircraftId, revision.getAsLong(), standings.days(asAt.today()));
  }

  /**
   * One aircraft.
   *
   * @throws NotHere when the operator had no such aircraft in the view
   */
  @Reading
  public AircraftOverview aircraft(Viewer viewer, UUID aircraftId, AsAt asAt) {
    List<UUID> one = List.of(aircraftId);
    Map<UUID, AircraftOverview> found =
        asAt.isNow()
            ? now(viewer, revisions.of(viewer, one), asAt.today())
            : asAt(viewer, one, asAt.view());
    if (found.isEmpty()) {
      throw new NotHere(
          asAt.isNow()
              ? "There is no such aircraft here."
              : "There was no such aircraft here then.");
    }
    return found.get(aircraftId);
  }

  private Map<UUID, AircraftOverview> now(Viewer viewer, Map<UUID, Long> current, LocalDate today) {
    return kept.get(
        viewer.operatorId(),
        current,
        standings.days(today),
        stale -> {
          Map<UUID, Long> theirs = stale.stream().collect(Collectors.toMap(id -> id, current::get));
          return put(
              standings.now(viewer, theirs, today),
              strips.of(viewer, stale, View.asAt(today)),
              today);
        });
  }

  private Map<UUID, AircraftOverview> asAt(Viewer viewer, Collection<UUID> ids, View view) {
    return put(standings.asAt(viewer, ids, view), strips.of(viewer, ids, view), view.upTo());
  }

  private static Map<UUID, AircraftOverview> put(
      Map<UUID, AircraftStanding> standings, Map<UUID, Strip> strips, LocalDate day) {
    Map<UUID, AircraftOverview> overviews = new HashMap<>();
    standings.forEach(
        (id, standing) ->
            overviews.put(
                id, AircraftOverview.of(standing, strips.getOrDefault(id, Strip.NONE), day)));
    return overviews;
  }
}
