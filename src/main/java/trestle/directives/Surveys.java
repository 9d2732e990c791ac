package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.Named;
import trestle.ledger.View;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * How directives stand over the whole fleet and the shelf, where one may name a hundred thousand
 * parts. Parts that nobody ever judged are all alike, to be assessed: they are found by number,
 * counted, and looked at closely only where they are shown.
 */
@ApplicationScoped
public class Surveys {
  private static final Comparator<Named.Part> BY_SERIAL =
      Comparator.comparing(Named.Part::partNumber)
          .thenComparing(Named.Part::serial)
          .thenComparing(Named.Part::id);

  @Inject DirectiveRepository repository;
  @Inject Status status;
  @Inject Components components;
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

    private <T> List<T> of(List<T> all) {
      int last = Math.max(1, (all.size() + size - 1) / size);
      int page = asked == null ? 1 : Math.min(Math.max(asked, 1), last);
      return all.subList((page - 1) * size, Math.min(all.size(), page * size));
    }
  }

  /**
   * What is to be assessed, of all directives in force.
   *
   * @param byDirective how many of each, without those that have none
   */
  public record Open(Map<UUID, Integer> byDirective, int rows, List<Status.Line> lines) {}

  /** A paragraph, the lines that had a closer look, and the parts that nobody ever judged. */
  private record Group(
      DirectiveSheet directive,
      ParagraphSheet paragraph,
      List<Status.Line> lines,
      List<Named.Part> unjudged) {

    /** In order: what is to be assessed stands first. */
    private List<Entry> entries(Judged.State only) {
      List<Entry> entries = new ArrayList<>();
      lines.stream().filter(Status.Line::toBeAssessed).forEach(one -> entries.add(entry(one)));
      unjudged.stream().sorted(BY_SERIAL).forEach(part -> entries.add(new Entry(this, null, part)));
      lines.stream().filter(one -> !one.toBeAssessed()).forEach(one -> entries.add(entry(one)));
      entries.removeIf(entry -> only != null && entry.state() != only);
      return entries;
    }

    private Entry entry(Status.Line line) {
      return new Entry(this, line, null);
    }
  }

  private record Entry(Group group, Status.Line line, Named.Part part) {
    private Judged.State state() {
      return line == null ? Judged.State.TO_BE_ASSESSED : line.judged().state();
    }
  }

  /**
   * Of one directive, each paragraph with every aircraft of its types and every part that it may
   * name, those on the shelf too; as if it were in effect already.
   *
   * @param most lines of each paragraph
   */
  @Reading
  public List<Told> ofDirective(Viewer viewer, DirectiveSheet directive, View view, int most) {
    List<Group> groups = groups(viewer, alone(directive), view);
    Map<UUID, List<Entry>> shown = new HashMap<>();
    groups.forEach(
        group -> shown.put(group.paragraph().id(), Page.first(most).of(group.entries(null))));
    List<Entry> all = shown.values().stream().flatMap(List::stream).toList();
    Map<Entry, Status.Line> lines = lines(viewer, all, view);
    return groups.stream()
        .map(
            group ->
                told(
                    group,
                    group.lines().size() + group.unjudged().size(),
                    shown.get(group.paragraph().id()).stream().map(lines::get).toList()))
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
    Status.InForce inForce = alone(history.get(history.size() - 1));
    Group group =
        groups(viewer, inForce, view).stream()
            .filter(one -> one.paragraph().id().equals(paragraph.id()))
            .findFirst()
            .orElseThrow(() -> new NotHere("That paragraph asks for nothing any more."));
    List<Entry> entries = group.entries(only);
    List<Entry> shown = page.of(entries);
    Map<Entry, Status.Line> lines = lines(viewer, shown, view);
    return told(group, entries.size(), shown.stream().map(lines::get).toList());
  }

  /** What nobody judged yet, of all directives in force, over the whole fleet and the shelf. */
  @Reading
  public Open toBeAssessed(Viewer viewer, Page page, View view) {
    Status.InForce inForce = status.inForce(view);
    if (inForce.paragraphs().isEmpty()) {
      return new Open(Map.of(), 0, List.of());
    }
    Map<UUID, Integer> byDirective = new HashMap<>();
    List<Entry> entries = new ArrayList<>();
    groups(viewer, inForce, view).stream()
        .sorted(Comparator.comparing(group -> group.directive().number()))
        .forEach(
            group -> {
              List<Entry> open = group.entries(Judged.State.TO_BE_ASSESSED);
              if (!open.isEmpty()) {
                byDirective.merge(group.directive().id(), open.size(), Integer::sum);
                entries.addAll(open);
              }
            });
    List<Entry> shown = page.of(entries);
    Map<Entry, Status.Line> lines = lines(viewer, shown, view);
    return new Open(byDirective, entries.size(), shown.stream().map(lines::get).toList());
  }

  private static Told told(Group group, int rows, List<Status.Line> lines) {
    return new Told(
        group.directive(),
        group.paragraph(),
        Told.counts(group.lines(), group.unjudged().size()),
        rows,
        lines);
  }

  private Status.InForce alone(DirectiveSheet directive) {
    return new Status.InForce(
        Map.of(directive.id(), directive),
        repository.paragraphsOf(directive.id()).stream().filter(one -> !one.withdrawn()).toList());
  }

  private List<Group> groups(Viewer viewer, Status.InForce inForce, View view) {
    Map<UUID, Group> groups = new LinkedHashMap<>();
    inForce
        .paragraphs()
        .forEach(
            one ->
                groups.put(
                    one.id(),
                    new Group(
                        inForce.directives().get(one.directiveId()),
                        one,
                        new ArrayList<>(),
                        new ArrayList<>())));
    List<Item> items = new ArrayList<>();
    if (inForce.paragraphs().stream().anyMatch(one -> !one.applicability().ofComponents())) {
      fleet.sheets(viewer, view).stream()
          .filter(one -> !one.retired())
          .forEach(one -> items.add(Item.of(one)));
    }
    items.addAll(items(viewer, judgedBefore(viewer, groups, view), view));
    for (Status.Line line : status.lines(viewer, inForce, items, view)) {
      groups.get(line.paragraph().id()).lines().add(line);
    }
    return List.copyOf(groups.values());
  }

  /**
   * Sorts the parts that are named: who was never judged goes into its groups; for whom there is
   * more to ask is answered.
   */
  private List<UUID> judgedBefore(Viewer viewer, Map<UUID, Group> groups, View view) {
    Map<String, List<Group>> byKey = new HashMap<>();
    List<Named> named = new ArrayList<>();
    for (Group group : groups.values()) {
      Applicability whom = group.paragraph().applicability();
      if (whom.ofComponents()) {
        named.addAll(whom.named());
        whom.keys().forEach(key -> byKey.computeIfAbsent(key, any -> new ArrayList<>()).add(group));
      }
    }
    if (named.isEmpty()) {
      return List.of();
    }
    Set<UUID> judged = new HashSet<>(repository.judgedParts(groups.keySet(), view));
    List<UUID> closely = new ArrayList<>();
    for (Named.Part part : components.named(viewer, named, view)) {
      List<Group> about =
          byKey.getOrDefault(ComponentSheet.partKey(part.partNumber()), List.of()).stream()
              .filter(group -> isNamed(group, part))
              .toList();
      boolean depends = about.stream().anyMatch(one -> !one.paragraph().modification().isEmpty());
      if (depends || judged.contains(part.id()) && !about.isEmpty()) {
        closely.add(part.id());
      } else {
        about.forEach(group -> group.unjudged().add(part));
      }
    }
    return closely;
  }

  private static boolean isNamed(Group group, Named.Part part) {
    return group.paragraph().applicability().covers(part.partNumber(), part.serial()) != Covered.NO;
  }

  private List<Item> items(Viewer viewer, List<UUID> parts, View view) {
    Map<UUID, Fitting> fitted = components.fitted(viewer, parts, view);
    return components.sheets(viewer, parts, view).values().stream()
        .map(sheet -> Item.of(sheet, fitted.get(sheet.id())))
        .toList();
  }

  /** The lines of these entries; of parts that nobody judged with where they are fitted. */
  private Map<Entry, Status.Line> lines(Viewer viewer, List<Entry> entries, View view) {
    List<UUID> parts =
        entries.stream()
            .map(Entry::part)
            .flatMap(Stream::ofNullable)
            .map(Named.Part::id)
            .distinct()
            .toList();
    Map<UUID, Item> items = new HashMap<>();
    items(viewer, parts, view).forEach(item -> items.put(item.id(), item));
    Map<Entry, Status.Line> lines = new HashMap<>();
    for (Entry entry : entries) {
      lines.put(
          entry,
          entry.line() == null
              ? unjudged(entry.group(), items.get(entry.part().id()), view)
              : entry.line());
    }
    return lines;
  }

  private static Status.Line unjudged(Group group, Item item, View view) {
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
