package trestle.records.pack;

import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.ComponentHistory;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Placement;
import trestle.ledger.View;
import trestle.web.Viewer;

/** The parts that are handed over with an aircraft or a component, and where they ever were. */
final class Whereabouts {
  private final Components components;
  private final Viewer viewer;
  private final PackSubject subject;
  private final View view;

  /** What is handed over. */
  final Set<UUID> parts = new HashSet<>();

  /** Components that these ever sat in, and are not handed over. */
  final Set<UUID> holders = new HashSet<>();

  /** Other aircraft that these flew on, and until when at most. */
  final Map<UUID, Instant> flownUntil = new HashMap<>();

  Whereabouts(Components components, Viewer viewer, PackSubject subject, View view) {
    this.components = components;
    this.viewer = viewer;
    this.subject = subject;
    this.view = view;
    handedOver();
    placesOfParts();
  }

  /** The subject's parts, and what sits in them, however deep. */
  private void handedOver() {
    if (subject.isAircraft()) {
      parts.addAll(components.fittedTo(viewer, List.of(subject.id()), view).keySet());
      return;
    }
    List<UUID> open = List.of(subject.id());
    while (!open.isEmpty()) {
      parts.addAll(open);
      open =
          components.inside(viewer, open, view).stream()
              .filter(Placement::isOpen)
              .map(Placement::componentId)
              .filter(id -> !parts.contains(id))
              .toList();
    }
  }

  /** All they ever sat in, and the other aircraft that they flew on, until when. */
  private void placesOfParts() {
    Collection<UUID> open = parts;
    while (!open.isEmpty()) {
      Set<UUID> next = new HashSet<>();
      for (ComponentHistory one : components.histories(viewer, open, view).values()) {
        one.placements().stream()
            .filter(Placement::isInComponent)
            .map(Placement::assemblyId)
            .filter(id -> !parts.contains(id) && !holders.contains(id))
            .forEach(next::add);
        if (parts.contains(one.sheet().id())) {
          one.fittings().forEach(this::flew);
        } else {
          one.placements().stream()
              .filter(placement -> !placement.isInComponent())
              .forEach(placement -> flownUntil.putIfAbsent(placement.aircraftId(), Instant.MIN));
        }
      }
      holders.addAll(next);
      open = next;
    }
    flownUntil.remove(subject.id());
  }

  private void flew(Fitting fitting) {
    Instant until = fitting.to() == null ? Instant.MAX : fitting.to();
    flownUntil.merge(fitting.aircraftId(), until, (one, other) -> one.isAfter(other) ? one : other);
  }
}
