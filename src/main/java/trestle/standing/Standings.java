package trestle.standing;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.View;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * The standing of aircraft, and what falls due on them. As at now it is kept in memory for each
 * aircraft's revision and day; past views are worked out each time.
 */
@ApplicationScoped
public class Standings {
  /** How many due items are kept; the aircraft least asked for go first. */
  private static final long MOST_ITEMS = 150_000;

  @Inject Fleet fleet;
  @Inject Revisions revisions;
  @Inject Instance<DueSource> sources;
  @Inject Instance<Grounds> grounds;
  @Inject InstantSource clock;

  private final RevisionCache<AircraftStanding> kept =
      new RevisionCache<>(MOST_ITEMS, standing -> standing.items().size());

  /** As at now; an aircraft that is not in the viewer's operator is left out. */
  @Reading
  public Map<UUID, AircraftStanding> now(
      Viewer viewer, Collection<UUID> aircraftIds, LocalDate today) {
    return now(viewer, revisions.of(viewer, aircraftIds), today);
  }

  /** As at now, for a caller that has read the revisions already. */
  @Reading
  public Map<UUID, AircraftStanding> now(Viewer viewer, Map<UUID, Long> current, LocalDate today) {
    return kept.get(
        viewer.operatorId(), current, days(today), stale -> asAt(viewer, stale, View.asAt(today)));
  }

  /** The days under which what is as at now may be kept. */
  public RevisionCache.Days days(LocalDate today) {
    return new RevisionCache.Days(today, clock.instant().atZone(ZoneOffset.UTC).toLocalDate());
  }

  /** In any view, read in a number of statements that does not depend on how many aircraft. */
  @Reading
  public Map<UUID, AircraftStanding> asAt(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, AircraftSheet> sheets = fleet.sheets(viewer, aircraftIds, view);
    Map<UUID, List<DueItem>> items = new HashMap<>();
    for (DueSource source : sources) {
      gather(source.dueItems(viewer, sheets.keySet(), view), items);
    }
    Map<UUID, List<Ground>> reasons = new HashMap<>();
    for (Grounds each : grounds) {
      gather(each.grounds(viewer, sheets.keySet(), view), reasons);
    }
    Map<UUID, AircraftStanding> standings = new HashMap<>();
    sheets.forEach((id, sheet) -> standings.put(id, standing(sheet, items, reasons)));
    return standings;
  }

  private static AircraftStanding standing(
      AircraftSheet sheet, Map<UUID, List<DueItem>> items, Map<UUID, List<Ground>> reasons) {
    return AircraftStanding.of(
        sheet,
        items.getOrDefault(sheet.id(), List.of()),
        reasons.getOrDefault(sheet.id(), List.of()));
  }

  private static <T> void gather(Map<UUID, List<T>> more, Map<UUID, List<T>> into) {
    more.forEach((id, list) -> into.computeIfAbsent(id, any -> new ArrayList<>()).addAll(list));
  }
}
