package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.Named;
import trestle.fleet.PartCounts;
import trestle.ledger.View;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * How directives stand over the whole fleet and the shelf, where one may name a hundred thousand
 * parts. Parts that nobody ever judged are all alike, to be assessed: the database counts them by
 * how they are written, and they are looked at closely only where they are shown.
 */
@ApplicationScoped
public class Surveys {
  @Inject DirectiveRepository repository;
  @Inject Status status;
  @Inject Components components;
  @Inject Census census;
  @Inject PartCounts counts;
  @Inject Fleet fleet;

  /**
   * One page of a long list.
   *
   * @param asked counted from 1, or null; one outside the list is moved into it
   */
  public record Page(Integer asked, int size) {
    public static Page first(int size) {
      return new Page(null, size);
    }

    /** The first row of it, counted from 0. */
    private int from(int rows) {
      int last = Math.max(1, (rows + size - 1) / size);
      return ((asked == null ? 1 : Math.min(Math.max(asked, 1), last)) - 1) * size;
    }
  }

  /**
   * What is to be assessed, of all directives in force.
   *
   * @param byDirective how many of each, without those that have none
   */
  public record Open(Map<UUID, Integer> byDirective, int rows, List<Status.Line> lines) {}

  /**
   * @param apart the parts that are not among those counted by the database
   */
  private record Survey(List<Surveyed> groups, Set<UUID> apart) {}

  /**
   * Of one directive, each paragraph with every aircraft of its types and every part that it may
   * name, those on the shelf too; as if it were in effect already.
   *
   * @param most lines of each paragraph
   */
  @Reading
  public List<Told> ofDirective(Viewer viewer, DirectiveSheet directive, View view, int most) {
    Survey survey = survey(viewer, alone(directive), view);
    List<Surveyed.Slice> slices =
        survey.groups().stream().map(group -> group.sorted(null).slice(0, most)).toList();
    Map<UUID, List<Status.Line>> lines = lines(viewer, slices, survey.apart(), view);
    return survey.groups().stream()
        .map(group -> told(group, group.sorted(null).rows(), lines.get(group.paragraph().id())))
        .toList();
  }

  /**
   * Of one paragraph.
   *
   * @param only in this state, or null for all
   */
  @Reading
  public Told ofParagraph(
      Viewer viewer, ParagraphSheet paragraph, Judged.State only, Page page, View view) {
    List<DirectiveSheet> history = repository.history(paragraph.directiveId());
    Survey survey = survey(viewer, alone(history.get(history.size() - 1)), view);
    Surveyed group =
        survey.groups().stream()
            .filter(one -> one.paragraph().id().equals(paragraph.id()))
            .findFirst()
            .orElseThrow(() -> new NotHere("That paragraph asks for nothing any more."));
    Surveyed.Sorted sorted = group.sorted(only);
    int from = page.from(sorted.rows());
    Surveyed.Slice slice = sorted.slice(from, from + page.size());
    return told(
        group,
        sorted.rows(),
        lines(viewer, List.of(slice), survey.apart(), view).get(group.paragraph().id()));
  }

  /** What nobody judged yet, of all directives in force, over the whole fleet and the shelf. */
  @Reading
  public Open toBeAssessed(Viewer viewer, Page page, View view) {
    Status.InForce inForce = status.inForce(view);
    if (inForce.paragraphs().isEmpty()) {
      return new Open(Map.of(), 0, List.of());
    }
    Survey survey = survey(viewer, inForce, view);
    List<Surveyed.Sorted> open =
        survey.groups().stream()
            .sorted(Comparator.comparing(group -> group.directive().number()))
            .map(group -> group.sorted(Judged.State.TO_BE_ASSESSED))
            .filter(sorted -> sorted.rows() > 0)
            .toList();
    Map<UUID, Integer> byDirective = new HashMap<>();
    open.forEach(one -> byDirective.merge(one.of().directive().id(), one.rows(), Integer::sum));
    int rows = open.stream().mapToInt(Surveyed.Sorted::rows).sum();
    int from = page.from(rows);
    List<Surveyed.Slice> slices = new ArrayList<>();
    int before = 0;
    for (Surveyed.Sorted one : open) {
      slices.add(one.slice(from - before, from + page.size() - before));
      before += one.rows();
    }
    Map<UUID, List<Status.Line>> lines = lines(viewer, slices, survey.apart(), view);
    return new Open(
        byDirective,
        rows,
        slices.stream().flatMap(slice -> lines.get(slice.of().paragraph().id()).stream()).toList());
  }

  private static Told told(Surveyed group, int rows, List<Status.Line> lines) {
    return new Told(
        group.directive(),
        group.paragraph(),
        Told.counts(group.lines(), group.unjudged().many()),
        rows,
        lines);
  }

  private Status.InForce alone(DirectiveSheet directive) {
    return new Status.InForce(
        Map.of(directive.id(), directive),
        repository.paragraphsOf(directive.id()).stream().filter(one -> !one.withdrawn()).toList());
  }

  private Survey survey(Viewer viewer, Status.InForce inForce, View view) {
    Map<UUID, Surveyed> groups = new LinkedHashMap<>();
    inForce
        .paragraphs()
        .forEach(
            one ->
                groups.put(
                    one.id(), Surveyed.of(inForce.directives().get(one.directiveId()), one)));
    List<Item> items = new ArrayList<>();
    if (inForce.paragraphs().stream().anyMatch(one -> !one.applicability().ofComponents())) {
      fleet.sheets(viewer, view).stream()
          .filter(one -> !one.retired())
          .forEach(one -> items.add(Item.of(one)));
    }
    Census.Found found = census.take(viewer, groups, view);
    items.addAll(items(viewer, found.closely(), view));
    for (Status.Line line : status.lines(viewer, inForce, items, view)) {
      groups.get(line.paragraph().id()).lines().add(line);
    }
    return new Survey(List.copyOf(groups.values()), found.apart());
  }

  private List<Item> items(Viewer viewer, Collection<UUID> parts, View view) {
    Map<UUID, Fitting> fitted = components.fitted(viewer, parts, view);
    return components.sheets(viewer, parts, view).values().stream()
        .map(sheet -> Item.of(sheet, fitted.get(sheet.id())))
        .toList();
  }

  /** The lines of these; of parts that nobody judged with where they are fitted. */
  private Map<UUID, List<Status.Line>> lines(
      Viewer viewer, List<Surveyed.Slice> slices, Set<UUID> apart, View view) {
    Map<UUID, List<Named.Part>> shown =
        counts.shown(
            viewer,
            slices.stream()
                .filter(Surveyed.Slice::hasUnjudged)
                .map(
                    one ->
                        one.of().unjudged().window(one.of().paragraph().id(), one.from(), one.to()))
                .toList(),
            apart,
            view);
    Set<UUID> parts =
        shown.values().stream()
            .flatMap(List::stream)
            .map(Named.Part::id)
            .collect(Collectors.toSet());
    Map<UUID, Item> items = new HashMap<>();
    items(viewer, parts, view).forEach(item -> items.put(item.id(), item));
    Map<UUID, List<Status.Line>> lines = new HashMap<>();
    for (Surveyed.Slice slice : slices) {
      Stream<Status.Line> unjudged =
          shown.getOrDefault(slice.of().paragraph().id(), List.of()).stream()
              .map(part -> unjudged(slice.of(), items.get(part.id()), view));
      lines.put(
          slice.of().paragraph().id(),
          Stream.of(slice.open().stream(), unjudged, slice.rest().stream())
              .flatMap(all -> all)
              .toList());
    }
    return lines;
  }

  private static Status.Line unjudged(Surveyed group, Item item, View view) {
    Judged how =
        Judged.of(
            group.directive(),
            group.paragraph(),
            item,
            Conditions.Condition.NONE,
            List.of(),
            view.upTo());
    return new Status.Line(group.directive(), group.paragraph(), item, how);
  }
}
