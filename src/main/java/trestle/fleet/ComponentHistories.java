package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.web.Viewer;

/** Puts together what is filed of components, for {@link Components}. */
@ApplicationScoped
class ComponentHistories {
  @Inject ComponentRepository repository;
  @Inject Fleet fleet;

  /** All that is stated of each component in the view; a constant number of statements. */
  Map<UUID, ComponentHistory> of(Viewer viewer, Collection<UUID> componentIds, View view) {
    Map<UUID, ComponentHistory> histories = new HashMap<>();
    Map<UUID, ComponentSheet> latest = new HashMap<>();
    for (ComponentRow row : repository.rows(componentIds)) {
      latest.put(row.componentId, row.sheet());
      if (row.ledgerSeq() <= view.knownBound() && !row.happenedOn().isAfter(view.upTo())) {
        histories.put(row.componentId, ComponentHistory.of(row.sheet()));
      }
    }
    for (ComponentOpening row : repository.openings(componentIds, view)) {
      histories.get(row.componentId).openings().add(opening(row));
    }
    for (ComponentOverhaul row : repository.overhauls(componentIds, view)) {
      histories.get(row.componentId).overhauls().add(overhaul(row));
    }
    for (ComponentEvent row : repository.events(componentIds, view)) {
      histories.get(row.componentId).events().add(row.event());
    }
    for (ComponentMeterReading row : repository.meterReadings(componentIds, view)) {
      histories.get(row.componentId).meterReadings().add(row.shown());
    }
    Carried carried =
        carried(viewer, repository.fitmentsOfComponents(componentIds, view), view, latest);
    histories.forEach(
        (id, history) -> {
          history.placements().addAll(carried.placements(id));
          history.fittings().addAll(carried.fittings(id));
        });
    return histories;
  }

  /** What these fitments had carried, however deep. */
  Carried carried(Viewer viewer, List<Fitment> rows, View view) {
    return carried(viewer, rows, view, new HashMap<>());
  }

  /**
   * @param sheets as last stated, of some of these components; the others are added
   */
  private Carried carried(
      Viewer viewer, List<Fitment> rows, View view, Map<UUID, ComponentSheet> sheets) {
    Set<UUID> missing = new HashSet<>();
    rows.forEach(row -> missing.add(row.componentId));
    missing.removeAll(sheets.keySet());
    for (ComponentRow row : repository.rows(missing)) {
      sheets.put(row.componentId, row.sheet());
    }
    return new Carried(placements(viewer, rows, view), sheets);
  }

  /** Where these fitments put what they are of, the oldest first. */
  List<Placement> placements(Viewer viewer, List<Fitment> rows, View view) {
    List<UUID> ids = rows.stream().map(Filed::id).toList();
    Set<UUID> aircraft = new HashSet<>();
    rows.stream().map(row -> row.aircraftId).filter(Objects::nonNull).forEach(aircraft::add);
    return new PlacementRows(rows, repository.removals(ids, view), view.upTo())
        .placements(fleet.positions(viewer, aircraft, view));
  }

  private static ComponentHistory.Opening opening(ComponentOpening row) {
    return new ComponentHistory.Opening(
        row.id(),
        new Counter(row.counter),
        row.sinceNew,
        row.sinceOverhaul,
        row.newOn,
        row.overhauledOn,
        row.happenedAt(),
        row.happenedOn());
  }

  private static ComponentHistory.Overhaul overhaul(ComponentOverhaul row) {
    return new ComponentHistory.Overhaul(
        row.id(), row.happenedAt(), row.happenedOn(), row.reference);
  }
}
