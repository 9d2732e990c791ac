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

/** Fitments and removals as filed, put together into what was fitted from when to when. */
final class FittingRows {
  private final LocalDate upTo;
  private final Map<UUID, UUID> firsts = new HashMap<>();
  private final Map<UUID, Fitment> newest = new LinkedHashMap<>();
  private final Map<UUID, Removal> removals = new HashMap<>();

  /**
   * @param fitments all that is known, corrected ones too, in the order of filing
   */
  FittingRows(List<Fitment> fitments, List<Removal> removals, LocalDate upTo) {
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

  /** The fittings of the view, oldest first. */
  List<Fitting> fittings(
      Map<UUID, ComponentSheet> components, Map<UUID, List<Position>> positions) {
    List<Fitting> fittings = new ArrayList<>();
    newest.forEach(
        (first, row) -> {
          if (!row.isVoid && !row.happenedOn().isAfter(upTo)) {
            fittings.add(
                fitting(row, removals.get(first), components.get(row.componentId), positions));
          }
        });
    fittings.sort(Comparator.comparing(Fitting::from));
    return fittings;
  }

  private static Fitting fitting(
      Fitment row, Removal removal, ComponentSheet component, Map<UUID, List<Position>> positions) {
    return new Fitting(
        row.id(),
        row.componentId,
        component.partNumber(),
        component.serial(),
        component.description(),
        component.kind(),
        row.aircraftId,
        row.positionCode,
        label(positions.getOrDefault(row.aircraftId, List.of()), row.positionCode),
        row.happenedAt(),
        row.happenedOn(),
        removal == null ? null : removal.happenedAt(),
        removal == null ? null : removal.id());
  }

  private static String label(List<Position> positions, String code) {
    return positions.stream()
        .filter(position -> position.code().equals(code))
        .map(Position::label)
        .findFirst()
        .orElse(code);
  }

  /** The id of the row that a chain of corrections began with. */
  private UUID first(Filed row) {
    UUID first =
        row.corrects() == null ? row.id() : firsts.getOrDefault(row.corrects(), row.corrects());
    firsts.put(row.id(), first);
    return first;
  }
}
