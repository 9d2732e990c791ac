package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.ledger.Filed;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * Components fitted, removed and swapped without a work order. An order holds its aircraft until it
 * is released; here nothing would, so a change without a release grounds the aircraft until
 * somebody who may has looked, and lifts it.
 */
@ApplicationScoped
public class PartChanges {
  @Inject AircraftRepository rows;
  @Inject Fitments fitments;
  @Inject Components components;
  @Inject Groundings groundings;
  @Inject ComponentLock lock;
  @Inject Fleet fleet;

  /**
   * What was done to a part of one aircraft, and where on it.
   *
   * @param place "as Engine", or "from Engine"
   */
  private record Change(ComponentSheet part, String done, String place, UUID aircraftId) {

    static Change fitted(ComponentSheet part, Fitting where) {
      return new Change(part, "fitted", "as " + where.positionLabel(), where.aircraftId());
    }

    static Change removed(ComponentSheet part, Fitting where) {
      return new Change(part, "removed", "from " + where.positionLabel(), where.aircraftId());
    }

    String words(String day) {
      return "%s, serial %s, was %s %s on %s, and no release is recorded."
          .formatted(part.description(), part.serial(), done, place, day);
    }
  }

  /**
   * What one form changed.
   *
   * @param setsUp it can be part of stating what an aircraft has when its records begin
   */
  private record Filled(Instant at, boolean setsUp, String released, UUID formKey) {}

  /**
   * Fits a component, and grounds the aircraft that then carries it where no release is named.
   *
   * @return the fitment's id
   */
  @Filing
  public UUID fit(Viewer viewer, Fitments.Fit asked) {
    Spot spot = asked.spot();
    Set<UUID> aircraft = new HashSet<>();
    if (spot.isInComponent()) {
      aircraft.addAll(carriers(viewer, List.of(spot.assemblyId()), asked.at()));
      lock.take(viewer, List.of(asked.componentId(), spot.assemblyId()), aircraft);
    } else {
      lock.take(viewer, List.of(asked.componentId()), List.of(spot.aircraftId()));
    }
    Optional<UUID> before = rows.ofForm(Fitment.class, asked.formKey()).map(Filed::id);
    if (before.isPresent()) {
      return before.get();
    }
    UUID id = fitments.fit(viewer, asked);
    ComponentHistory component = history(viewer, asked.componentId());
    List<Change> changes = new ArrayList<>();
    where(component, asked.at())
        .ifPresent(there -> changes.add(Change.fitted(component.sheet(), there)));
    ground(viewer, changes, new Filled(asked.at(), true, asked.released(), asked.formKey()));
    return id;
  }

  /**
   * Removes what a fitment fitted, and grounds the aircraft that carried it where no release is
   * named.
   *
   * @return the removal's id
   */
  @Filing
  public UUID remove(Viewer viewer, Fitments.Remove asked) {
    List<UUID> part =
        List.of(
            rows.row(Fitment.class, asked.fitmentId())
                .orElseThrow(() -> new NotHere("There is no such fitment here."))
                .componentId);
    lock.take(viewer, part, carriers(viewer, part, asked.at()));
    Optional<UUID> before = rows.ofForm(Removal.class, asked.formKey()).map(Filed::id);
    if (before.isPresent()) {
      return before.get();
    }
    ComponentHistory component = history(viewer, part.get(0));
    List<Change> changes = new ArrayList<>();
    where(component, asked.at())
        .ifPresent(there -> changes.add(Change.removed(component.sheet(), there)));
    UUID id = fitments.remove(viewer, asked);
    ground(viewer, changes, new Filled(asked.at(), false, asked.released(), asked.formKey()));
    return id;
  }

  /** Two components change places; without a release both aircraft are grounded. */
  @Filing
  public void swap(Viewer viewer, Fitments.Swap asked) {
    List<UUID> both = List.of(asked.componentId(), asked.otherId());
    lock.take(viewer, both, carriers(viewer, both, asked.at()));
    if (rows.ofForm(Removal.class, asked.formKey()).isPresent()) {
      return;
    }
    ComponentHistory one = history(viewer, asked.componentId());
    ComponentHistory other = history(viewer, asked.otherId());
    List<Change> changes = new ArrayList<>();
    where(one, asked.at()).ifPresent(there -> changes.add(Change.fitted(other.sheet(), there)));
    where(other, asked.at()).ifPresent(there -> changes.add(Change.fitted(one.sheet(), there)));
    fitments.swap(viewer, asked);
    ground(viewer, changes, new Filled(asked.at(), false, asked.released(), asked.formKey()));
  }

  private void ground(Viewer viewer, List<Change> changes, Filled form) {
    if (form.released() != null) {
      return;
    }
    String day = Shown.date(viewer.dateOf(form.at()));
    Map<UUID, String> why =
        changes.stream()
            .filter(change -> isOfTheRecords(viewer, change.aircraftId(), form))
            .collect(
                Collectors.groupingBy(
                    Change::aircraftId,
                    TreeMap::new,
                    Collectors.mapping(change -> change.words(day), Collectors.joining(" "))));
    why.forEach((id, words) -> groundings.ground(viewer, id, words, key(form.formKey(), id)));
  }

  /**
   * Whether it happened after the aircraft's records began. What it had by then is what they begin
   * with: somebody else released that. Who states on one day what an aircraft has run and what is
   * fitted to it need not say in which minute.
   */
  private boolean isOfTheRecords(Viewer viewer, UUID aircraftId, Filled form) {
    return fleet
        .openings(viewer, List.of(aircraftId), View.EVERYTHING)
        .getOrDefault(aircraftId, List.of())
        .stream()
        .findFirst()
        .map(
            began ->
                form.setsUp()
                    ? viewer.dateOf(form.at()).isAfter(began.on())
                    : form.at().isAfter(began.at()))
        .orElse(true);
  }

  /** One form grounds each aircraft once; a key stands once in a table. */
  private static UUID key(UUID formKey, UUID aircraftId) {
    return formKey == null
        ? null
        : UUID.nameUUIDFromBytes((formKey + " " + aircraftId).getBytes(StandardCharsets.UTF_8));
  }

  private Set<UUID> carriers(Viewer viewer, Collection<UUID> parts, Instant at) {
    return components.histories(viewer, parts, View.EVERYTHING).values().stream()
        .flatMap(part -> where(part, at).stream())
        .map(Fitting::aircraftId)
        .collect(Collectors.toSet());
  }

  /** On which aircraft it is at a moment, itself or within a larger part; nowhere on a shelf. */
  private static Optional<Fitting> where(ComponentHistory part, Instant at) {
    return part.fittings().stream().filter(fitting -> fitting.holdsAt(at)).findFirst();
  }

  private ComponentHistory history(Viewer viewer, UUID componentId) {
    return components.history(viewer, componentId, View.EVERYTHING);
  }
}
