package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.ledger.View;
import trestle.web.NotHere;
import trestle.web.Viewer;

/**
 * Locks what a filing about components concerns: first the aircraft that they, and all that ever
 * sat in them, are on now (their revisions move on), then the components.
 */
@ApplicationScoped
class ComponentLock {
  @Inject ComponentRepository repository;
  @Inject Components components;
  @Inject Revisions revisions;

  /**
   * @param alsoAircraft others whose due items the filing can move
   * @throws NotHere when one of the components is not in the viewer's operator
   */
  void take(Viewer viewer, Collection<UUID> componentIds, Collection<UUID> alsoAircraft) {
    Set<UUID> aircraft = new HashSet<>(alsoAircraft);
    aircraft.addAll(aircraftTouched(viewer, componentIds));
    revisions.bump(viewer, aircraft);
    for (UUID component : new TreeSet<>(componentIds)) {
      if (!repository.lock(component)) {
        throw new NotHere("There is no such component here.");
      }
    }
    // Somebody may have fitted them elsewhere while this waited.
    Set<UUID> moved = aircraftTouched(viewer, componentIds);
    moved.removeAll(aircraft);
    revisions.bump(viewer, moved);
  }

  private Set<UUID> aircraftTouched(Viewer viewer, Collection<UUID> componentIds) {
    Set<UUID> all = new LinkedHashSet<>(componentIds);
    List<UUID> open = new ArrayList<>(all);
    while (!open.isEmpty()) {
      List<UUID> next = new ArrayList<>();
      for (Placement inner : components.inside(viewer, open, View.EVERYTHING)) {
        if (all.add(inner.componentId())) {
          next.add(inner.componentId());
        }
      }
      open = next;
    }
    return components.fitted(viewer, all, View.EVERYTHING).values().stream()
        .map(Fitting::aircraftId)
        .collect(Collectors.toCollection(HashSet::new));
  }
}
