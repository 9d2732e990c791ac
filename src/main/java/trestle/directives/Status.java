package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.ComponentHistory;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.programme.ComplianceRecords;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * How every directive stands for aircraft and their parts, in any view. Only what a paragraph could
 * be about by its type or part number is listed at all; of those, who is not named by serial number
 * is listed as such. Over the whole fleet: {@link Surveys}.
 */
@ApplicationScoped
public class Status {
  @Inject DirectiveRepository repository;
  @Inject ComplianceRecords complianceRecords;
  @Inject Components components;
  @Inject Fleet fleet;
  @Inject Conditions conditions;

  private static final Comparator<Line> IN_ORDER =
      Comparator.comparing((Line line) -> line.judged().state())
          .thenComparing(line -> line.directive().number())
          .thenComparing(line -> line.paragraph().label())
          .thenComparing(line -> line.item().words());

  /** One paragraph for one aircraft or component. */
  public record Line(DirectiveSheet directive, ParagraphSheet paragraph, Item item, Judged judged) {

    public boolean toBeAssessed() {
      return judged.state() == Judged.State.TO_BE_ASSESSED;
    }

    /** Nobody judged it, and nothing may be flown until somebody does or waives it. */
    public boolean holds() {
      return toBeAssessed()
          && directive.mandatory()
          && !paragraph.optional()
          && item.aircraftId() != null;
    }

    /** "X-2021-11 (a)". */
    public String name() {
      return paragraph.label().isEmpty()
          ? directive.number()
          : directive.number() + " " + paragraph.label();
    }

    /** Where it is assessed. */
    public String link() {
      return "/paragraphs/" + paragraph.id() + "/assessments/new?" + item.query();
    }
  }

  /** The directives in force on a view's last day, and their paragraphs. */
  record InForce(Map<UUID, DirectiveSheet> directives, List<ParagraphSheet> paragraphs) {

    /** Those that neither were withdrawn nor gave place to another. */
    static Map<UUID, DirectiveSheet> of(List<DirectiveSheet> newest) {
      Set<UUID> superseded = new HashSet<>();
      newest.stream()
          .filter(one -> !one.withdrawn())
          .forEach(one -> superseded.addAll(one.supersedes()));
      Map<UUID, DirectiveSheet> inForce = new HashMap<>();
      newest.stream()
          .filter(one -> !one.withdrawn() && !superseded.contains(one.id()))
          .forEach(one -> inForce.put(one.id(), one));
      return inForce;
    }
  }

  /** By aircraft, its own and its parts'; an aircraft that nothing could be about is left out. */
  @Reading
  public Map<UUID, List<Line>> ofAircraft(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    InForce inForce = inForce(view);
    Map<UUID, List<Line>> byAircraft = new HashMap<>();
    if (inForce.paragraphs().isEmpty() || aircraftIds.isEmpty()) {
      return byAircraft;
    }
    List<Item> items = new ArrayList<>();
    fleet.sheets(viewer, aircraftIds, view).values().forEach(one -> items.add(Item.of(one)));
    components
        .fittings(viewer, aircraftIds, view)
        .values()
        .forEach(
            all -> all.stream().filter(Fitting::isFitted).forEach(one -> items.add(Item.of(one))));
    for (Line line : lines(viewer, inForce, items, view)) {
      byAircraft.computeIfAbsent(line.item().aircraftId(), id -> new ArrayList<>()).add(line);
    }
    return byAircraft;
  }

  /** Of one component, wherever it is; empty where nothing could be about it. */
  @Reading
  public List<Line> ofComponent(Viewer viewer, UUID componentId, View view) {
    InForce inForce = inForce(view);
    ComponentHistory history = components.history(viewer, componentId, view);
    return lines(viewer, inForce, List.of(Item.of(history.sheet(), history.fitted())), view);
  }

  InForce inForce(View view) {
    Map<UUID, DirectiveSheet> directives = InForce.of(repository.directives(view));
    if (directives.isEmpty()) {
      return new InForce(directives, List.of());
    }
    List<ParagraphSheet> paragraphs =
        repository.paragraphs(view).stream()
            .filter(one -> directives.containsKey(one.directiveId()))
            .toList();
    return new InForce(directives, paragraphs);
  }

  /** Sorted; of each item with the paragraphs that are about its type or part number. */
  List<Line> lines(Viewer viewer, InForce inForce, List<Item> items, View view) {
    Map<String, List<ParagraphSheet>> byKey = new HashMap<>();
    for (ParagraphSheet paragraph : inForce.paragraphs()) {
      Applicability whom = paragraph.applicability();
      whom.keys()
          .forEach(
              key ->
                  byKey
                      .computeIfAbsent(key(whom.ofComponents(), key), any -> new ArrayList<>())
                      .add(paragraph));
    }
    Map<Item, List<ParagraphSheet>> asked = new java.util.LinkedHashMap<>();
    for (Item item : items) {
      List<ParagraphSheet> about =
          byKey.get(key(item.isComponent(), Applicability.key(item.name())));
      if (about != null) {
        asked.put(item, about);
      }
    }
    Map<String, List<AssessmentSheet>> judged = judged(asked.keySet(), view);
    Conditions.Recorded recorded =
        conditions.of(
            viewer,
            inForce.paragraphs(),
            asked.keySet().stream().map(Item::aircraftId).filter(Objects::nonNull).toList(),
            view);
    List<Line> lines = new ArrayList<>();
    asked.forEach(
        (item, paragraphs) -> {
          for (ParagraphSheet paragraph : paragraphs) {
            DirectiveSheet directive = inForce.directives().get(paragraph.directiveId());
            List<AssessmentSheet> all =
                judged.getOrDefault(paragraph.id() + " " + item.id(), List.of());
            Judged how =
                Judged.of(
                    directive,
                    paragraph,
                    item,
                    recorded.of(paragraph, item.aircraftId()),
                    all,
                    view.upTo());
            lines.add(new Line(directive, paragraph, item, how));
          }
        });
    return ended(viewer, inForce, lines, view).stream().sorted(IN_ORDER).toList();
  }

  private static String key(boolean component, String name) {
    return (component ? "part " : "type ") + name;
  }

  private Map<String, List<AssessmentSheet>> judged(Collection<Item> items, View view) {
    Set<UUID> aircraft = new HashSet<>();
    Set<UUID> parts = new HashSet<>();
    items.forEach(item -> (item.isComponent() ? parts : aircraft).add(item.id()));
    Map<String, List<AssessmentSheet>> judged = new HashMap<>();
    if (!items.isEmpty()) {
      for (AssessmentSheet one : repository.assessments(aircraft, parts, view)) {
        judged
            .computeIfAbsent(one.paragraphId() + " " + one.subjectId(), id -> new ArrayList<>())
            .add(one);
      }
    }
    return judged;
  }

  /** With the lines ended whose terminating action was done on the same aircraft or part. */
  private List<Line> ended(Viewer viewer, InForce inForce, List<Line> lines, View view) {
    Map<UUID, String> enders = new HashMap<>();
    for (Line line : lines) {
      AssessmentSheet assessment = line.judged().assessment();
      if (!line.paragraph().terminates().isEmpty()
          && assessment != null
          && assessment.requirementId() != null) {
        enders.put(assessment.requirementId(), line.name());
      }
    }
    if (enders.isEmpty()) {
      return lines;
    }
    Set<UUID> done = complianceRecords.done(viewer, enders.keySet(), view);
    Map<String, String> by = new HashMap<>();
    for (Line line : lines) {
      AssessmentSheet assessment = line.judged().assessment();
      if (assessment != null && done.contains(assessment.requirementId())) {
        line.paragraph()
            .terminates()
            .forEach(ended -> by.put(ended + " " + line.item().id(), line.name()));
      }
    }
    return lines.stream().map(line -> ended(line, by)).toList();
  }

  private static Line ended(Line line, Map<String, String> by) {
    String ender = by.get(line.paragraph().id() + " " + line.item().id());
    boolean ends = ender != null && line.judged().state() != Judged.State.NOT_NAMED;
    return ends
        ? new Line(
            line.directive(),
            line.paragraph(),
            line.item(),
            new Judged(
                Judged.State.ENDED, "by " + ender + ", which was done", line.judged().assessment()))
        : line;
  }
}
