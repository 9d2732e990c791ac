package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Alike;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Named;
import trestle.fleet.PartCounts;
import trestle.fleet.Stretch;
import trestle.ledger.View;
import trestle.web.Viewer;

/** Finds the parts that paragraphs name, and counts those that nobody ever judged. */
@ApplicationScoped
class Census {
  @Inject DirectiveRepository repository;
  @Inject Components components;
  @Inject PartCounts counts;

  /**
   * @param closely the parts for which there is more to ask than whether they are named
   * @param apart those that may not be counted by the database
   */
  record Found(Set<UUID> closely, Set<UUID> apart) {}

  /** Who was never judged goes into those that name it, most of them as numbers. */
  Found take(Viewer viewer, Map<UUID, Surveyed> paragraphs, View view) {
    List<Surveyed> ofParts = paragraphs.values().stream().filter(Surveyed::ofComponents).toList();
    if (ofParts.isEmpty()) {
      return new Found(Set.of(), Set.of());
    }
    Map<String, List<Surveyed>> byKey = new HashMap<>();
    for (Surveyed one : ofParts) {
      one.paragraph()
          .applicability()
          .keys()
          .forEach(key -> byKey.computeIfAbsent(key, any -> new ArrayList<>()).add(one));
    }
    List<UUID> statedAnew = counts.statedAnew(viewer);
    Set<UUID> judged = new HashSet<>(repository.judgedParts(paragraphs.keySet(), view));
    Map<UUID, Named.Part> others = new LinkedHashMap<>();
    counts
        .others(viewer, byKey.keySet(), statedAnew, view)
        .forEach(part -> others.put(part.id(), part));
    Set<UUID> closely = new LinkedHashSet<>();
    for (Named.Part part : oneByOne(viewer, ofParts, others, judged, view)) {
      List<Surveyed> about =
          byKey.getOrDefault(ComponentSheet.partKey(part.partNumber()), List.of()).stream()
              .filter(one -> one.covers(part))
              .toList();
      if (about.stream().anyMatch(Surveyed::depends)
          || judged.contains(part.id()) && !about.isEmpty()) {
        closely.add(part.id());
      } else {
        about.stream()
            .filter(one -> !one.counted() || others.containsKey(part.id()))
            .forEach(one -> one.unjudged().others().add(part));
      }
    }
    Set<UUID> apart = new HashSet<>(statedAnew);
    apart.addAll(closely);
    count(viewer, paragraphs, apart, view);
    return new Found(closely, apart);
  }

  /** Those that can't be counted, all of paragraphs that can't, and those once judged. */
  private Collection<Named.Part> oneByOne(
      Viewer viewer,
      List<Surveyed> ofParts,
      Map<UUID, Named.Part> others,
      Set<UUID> judged,
      View view) {
    Map<UUID, Named.Part> each = new LinkedHashMap<>(others);
    List<Named> uncounted =
        ofParts.stream()
            .filter(one -> !one.counted())
            .flatMap(one -> one.paragraph().applicability().named().stream())
            .toList();
    components.named(viewer, uncounted, view).forEach(part -> each.put(part.id(), part));
    components
        .sheets(viewer, judged, view)
        .forEach((id, one) -> each.put(id, new Named.Part(id, one.partNumber(), one.serial())));
    return each.values();
  }

  private void count(Viewer viewer, Map<UUID, Surveyed> paragraphs, Set<UUID> apart, View view) {
    List<Stretch> stretches =
        paragraphs.entrySet().stream()
            .filter(one -> one.getValue().ofComponents() && one.getValue().counted())
            .flatMap(
                one -> one.getValue().paragraph().applicability().stretches(one.getKey()).stream())
            .toList();
    for (Alike alike : counts.counts(viewer, stretches, apart, view)) {
      Surveyed one = paragraphs.get(alike.stretch().whose());
      if (one.covers(alike.partNumber(), alike.serial())) {
        one.unjudged().alike().add(alike);
      }
    }
  }
}
