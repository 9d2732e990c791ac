package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Components;
import trestle.ledger.View;
import trestle.programme.ComplianceRecords;
import trestle.programme.Endings;
import trestle.web.Viewer;

/**
 * Requirements that directives opened and that ask for nothing any more: the directive was
 * withdrawn or gave place to another, the paragraph was taken away, it was judged again not to
 * apply or the judgement was taken away, the configuration is not as it asks, or its terminating
 * action was done. All of it is worked out at reading; a correction that takes the terminating
 * action away brings the requirement back.
 */
@ApplicationScoped
class DirectiveEndings implements Endings {
  @Inject DirectiveRepository repository;
  @Inject ComplianceRecords complianceRecords;
  @Inject Components components;
  @Inject Conditions conditions;

  @Override
  public Set<UUID> ended(Viewer viewer, Collection<UUID> requirementIds, View view) {
    List<AssessmentSheet> opening = repository.opening(requirementIds, view);
    if (opening.isEmpty()) {
      return Set.of();
    }
    Map<UUID, DirectiveSheet> inForce = Status.InForce.of(repository.directives(view));
    Map<UUID, ParagraphSheet> paragraphs = new HashMap<>();
    repository.paragraphs(view).stream()
        .filter(one -> inForce.containsKey(one.directiveId()))
        .forEach(one -> paragraphs.put(one.id(), one));
    Map<UUID, Set<UUID>> enders = enders(paragraphs.values());
    Set<UUID> asked = new HashSet<>(enders.keySet());
    opening.forEach(one -> asked.add(one.paragraphId()));
    enders.values().forEach(asked::addAll);
    Map<String, AssessmentSheet> newest = new HashMap<>();
    Map<String, UUID> opened = new HashMap<>();
    for (AssessmentSheet one : repository.ofParagraphs(asked, view)) {
      String of = one.paragraphId() + " " + one.subjectId();
      boolean ahead = one.verdict() == Verdict.DOES_NOT && one.effectiveOn().isAfter(view.upTo());
      if (one.verdict() != Verdict.WAIVED && !ahead) {
        newest.put(of, one);
      }
      if (one.requirementId() != null) {
        opened.put(of, one.requirementId());
      }
    }
    Set<UUID> done = doneEnders(viewer, enders, opened, view);
    Set<UUID> elsewhere = without(viewer, opening, paragraphs, view);
    Set<UUID> ended = new HashSet<>();
    for (AssessmentSheet one : opening) {
      AssessmentSheet now = newest.get(one.paragraphId() + " " + one.subjectId());
      boolean terminated =
          enders.getOrDefault(one.paragraphId(), Set.of()).stream()
              .map(ender -> opened.get(ender + " " + one.subjectId()))
              .anyMatch(requirement -> requirement != null && done.contains(requirement));
      if (!paragraphs.containsKey(one.paragraphId())
          || now == null
          || now.verdict() == Verdict.DOES_NOT
          || elsewhere.contains(one.requirementId())
          || terminated) {
        ended.add(one.requirementId());
      }
    }
    return ended;
  }

  /** Those that depend on a modification which is not as they ask where their item is now. */
  private Set<UUID> without(
      Viewer viewer,
      List<AssessmentSheet> opening,
      Map<UUID, ParagraphSheet> paragraphs,
      View view) {
    List<AssessmentSheet> depending =
        opening.stream()
            .filter(one -> paragraphs.containsKey(one.paragraphId()))
            .filter(one -> !paragraphs.get(one.paragraphId()).modification().isEmpty())
            .toList();
    if (depending.isEmpty()) {
      return Set.of();
    }
    Map<UUID, UUID> where = where(viewer, depending, view);
    Conditions.Recorded recorded =
        conditions.of(viewer, List.copyOf(paragraphs.values()), where.values(), view);
    Set<UUID> without = new HashSet<>();
    for (AssessmentSheet one : depending) {
      UUID aircraft = where.get(one.subjectId());
      if (recorded.of(paragraphs.get(one.paragraphId()), aircraft).holds() == Covered.NO) {
        without.add(one.requirementId());
      }
    }
    return without;
  }

  /** The aircraft of each item: itself, or what a part is on; a part on the shelf has none. */
  private Map<UUID, UUID> where(Viewer viewer, List<AssessmentSheet> of, View view) {
    Map<UUID, UUID> where = new HashMap<>();
    Set<UUID> parts = new HashSet<>();
    for (AssessmentSheet one : of) {
      if (one.componentId() == null) {
        where.put(one.aircraftId(), one.aircraftId());
      } else {
        parts.add(one.componentId());
      }
    }
    if (!parts.isEmpty()) {
      components
          .histories(viewer, parts, view)
          .forEach(
              (id, history) -> {
                if (history.fitted() != null) {
                  where.put(id, history.fitted().aircraftId());
                }
              });
    }
    return where;
  }

  /** By paragraph, those whose doing ends it. */
  private static Map<UUID, Set<UUID>> enders(Collection<ParagraphSheet> paragraphs) {
    Map<UUID, Set<UUID>> enders = new HashMap<>();
    for (ParagraphSheet paragraph : paragraphs) {
      for (UUID ended : paragraph.terminates()) {
        enders.computeIfAbsent(ended, id -> new HashSet<>()).add(paragraph.id());
      }
    }
    return enders;
  }

  private Set<UUID> doneEnders(
      Viewer viewer, Map<UUID, Set<UUID>> enders, Map<String, UUID> opened, View view) {
    Set<UUID> paragraphs = new HashSet<>();
    enders.values().forEach(paragraphs::addAll);
    Set<UUID> requirements = new HashSet<>();
    opened.forEach(
        (of, requirement) -> {
          if (paragraphs.contains(UUID.fromString(of.substring(0, 36)))) {
            requirements.add(requirement);
          }
        });
    return complianceRecords.done(viewer, requirements, view);
  }
}
