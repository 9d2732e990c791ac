package trestle.fleet;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;

/**
 * What aircraft carried, derived from where each component was put: a part of an assembly was on an
 * aircraft while it sat in the assembly and the assembly was there.
 */
final class Carried {
  private final Map<UUID, List<Placement>> placements = new HashMap<>();
  private final Map<UUID, ComponentSheet> sheets;
  private final Map<UUID, List<Fitting>> done = new HashMap<>();
  private final Set<UUID> underWay = new HashSet<>();

  /**
   * @param placements of the components asked about, and of all they sat in
   * @param sheets of all of these
   */
  Carried(List<Placement> placements, Map<UUID, ComponentSheet> sheets) {
    placements.forEach(
        each ->
            this.placements.computeIfAbsent(each.componentId(), id -> new ArrayList<>()).add(each));
    this.sheets = sheets;
  }

  Set<UUID> components() {
    return placements.keySet();
  }

  List<Placement> placements(UUID component) {
    return placements.getOrDefault(component, List.of());
  }

  /** The fittings of one component, oldest first. */
  List<Fitting> fittings(UUID component) {
    List<Fitting> known = done.get(component);
    if (known == null) {
      known = within(component, Instant.MIN, null);
      done.put(component, known);
    }
    return known;
  }

  /**
   * Of a component, the fittings that touch a time. Only that time is followed further: what holds
   * a part now may have sat in it before, and neither is a circle.
   */
  private List<Fitting> within(UUID component, Instant from, Instant to) {
    // The database refuses circles; what was known at an earlier time is read all the same.
    if (!underWay.add(component)) {
      return List.of();
    }
    List<Fitting> fittings = new ArrayList<>();
    for (Placement placement : placements(component)) {
      Instant begins = placement.from().isAfter(from) ? placement.from() : from;
      Instant ends = earlier(placement.to(), to);
      if (ends != null && !begins.isBefore(ends)) {
        continue;
      }
      if (placement.isInComponent()) {
        within(placement.assemblyId(), begins, ends)
            .forEach(holder -> add(fittings, placement, holder));
      } else {
        fittings.add(direct(placement));
      }
    }
    fittings.sort(Comparator.comparing(Fitting::from));
    underWay.remove(component);
    return fittings;
  }

  private Fitting direct(Placement placement) {
    ComponentSheet sheet = sheets.get(placement.componentId());
    return new Fitting(
        placement.fitmentId(),
        placement.componentId(),
        sheet.partNumber(),
        sheet.serial(),
        sheet.description(),
        sheet.kind(),
        placement.aircraftId(),
        placement.positionCode(),
        placement.positionLabel(),
        placement.from(),
        placement.fromOn(),
        placement.to(),
        placement.removalId(),
        null);
  }

  /** While both the part sat in its assembly and the assembly was on the aircraft, if ever. */
  private void add(List<Fitting> fittings, Placement placement, Fitting holder) {
    boolean later = placement.from().isAfter(holder.from());
    Instant from = later ? placement.from() : holder.from();
    Instant to = earlier(placement.to(), holder.to());
    if (to != null && !from.isBefore(to)) {
      return;
    }
    ComponentSheet sheet = sheets.get(placement.componentId());
    fittings.add(
        new Fitting(
            placement.fitmentId(),
            placement.componentId(),
            sheet.partNumber(),
            sheet.serial(),
            sheet.description(),
            sheet.kind(),
            holder.aircraftId(),
            holder.positionCode() + "/" + placement.place(),
            holder.positionLabel() + ", " + placement.place(),
            from,
            later ? placement.fromOn() : holder.fromOn(),
            to,
            placement.removalId(),
            placement.assemblyId()));
  }

  private static Instant earlier(Instant one, Instant other) {
    if (one == null || other == null) {
      return one == null ? other : one;
    }
    return one.isBefore(other) ? one : other;
  }
}
