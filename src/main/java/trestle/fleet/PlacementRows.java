package trestle.fleet;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.Filed;

/** Fitments and removals as filed, put together into what was where from when to when. */
final class PlacementRows {
  private final LocalDate upTo;
  private final Map<UUID, UUID> firsts = new HashMap<>();
  private final Map<UUID, Fitment> newest = new LinkedHashMap<>();
  private final Map<UUID, Removal> removals = new HashMap<>();

  /**
   * @param fitments all that is known, corrected ones too, in the order of filing
   */
  PlacementRows(List<Fitment> fitments, List<Removal> removals, LocalDate upTo) {
    this.upTo = upTo;
    fitments.forEach(row -> newest.put(first(row), row));
    Map<UUID, Removal> newestRemovals = new LinkedHashMap<>();
    removals.forEach(row -> newestRemovals.put(first(row), row));
    for (Removal row : newestRemovals.values()) {
      if (!row.isVoid && !row.happenedOn().isAfter(upTo)) {
        this.removals.put(firsts.getOrDefault(row.fitmentId, row.fitmentId), row);
      }
    }
  }

  /** What stands in the view, oldest first. */
  List<Placement> placements(Map<UUID, List<Position>> positions) {
    List<Placement> placements = new ArrayList<>();
    newest.forEach(
        (first, row) -> {
          if (!row.isVoid && !row.happenedOn().isAfter(upTo)) {
            placements.add(placement(row, removals.get(first), positions));
          }
        });
    placements.sort(Comparator.comparing(Placement::from));
    return placements;
  }

  private static Placement placement(
      Fitment row, Removal removal, Map<UUID, List<Position>> positions) {
    return new Placement(
        row.id(),
        row.componentId,
        row.aircraftId,
        row.positionCode,
        label(row, positions),
        row.assemblyId,
        row.place,
        row.happenedAt(),
        row.happenedOn(),
        removal == null ? null : removal.happenedAt(),
        removal == null ? null : removal.id(),
        removal == null ? "" : removal.why,
        removal != null && removal.scheduled);
  }

  private static String label(Fitment row, Map<UUID, List<Position>> positions) {
    return positions.getOrDefault(row.aircraftId, List.of()).stream()
        .filter(position -> position.code().equals(row.positionCode))
        .map(Position::label)
        .findFirst()
        .orElse(row.positionCode);
  }

  /** The id of the row that a chain of corrections began with. */
  private UUID first(Filed row) {
    UUID first =
        row.corrects() == null ? row.id() : firsts.getOrDefault(row.corrects(), row.corrects());
    firsts.put(row.id(), first);
    return first;
  }
}
