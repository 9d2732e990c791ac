package trestle.workshop.paper;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.web.Shown;
import trestle.workshop.Area;
import trestle.workshop.OrderLine;
import trestle.workshop.Outcome;
import trestle.workshop.Totals;
import trestle.workshop.WorkOrderSheet;

/**
 * Which signed work belongs into which logbook. An inspection goes into every book it looked at:
 * one of the aircraft into all, one of a component into its own. Other work goes where its signer
 * said; else into the book of the component that its line names; by its area where there is only
 * one engine or propeller; else into the airframe's. A task stands in its inspection's extent, and
 * by itself only where something came of it: a finding, a part, a reading, a second person's
 * inspection. What was read of another engine than the book's is left out of it.
 */
final class LogEntries {
  private static final List<String> ORDER = List.of("aircraft", "engine", "propeller", "other");

  private final Paper paper;
  private final List<Totals.Of> books;

  private LogEntries(Paper paper) {
    this.paper = paper;
    this.books = paper.totals();
  }

  /**
   * The airframe's first, then engines, then propellers; books in which nothing is to be entered
   * are left out.
   */
  static List<LogEntry> of(Paper paper) {
    LogEntries entries = new LogEntries(paper);
    return entries.books.stream()
        .map(entries::entry)
        .filter(entry -> entry.isAirframe() || !entry.isEmpty())
        .sorted(Comparator.comparingInt(entry -> ORDER.indexOf(entry.of().kind())))
        .toList();
  }

  private LogEntry entry(Totals.Of book) {
    List<LogEntry.Inspected> inspections = new ArrayList<>();
    List<OrderLine> work = new ArrayList<>();
    for (OrderLine line : paper.sheet().lines()) {
      if (!isWork(line) || !booksOf(line).contains(book)) {
        continue;
      }
      if (line.line().inspection()) {
        inspections.add(inspected(line));
      } else if (!line.line().isTask() || cameOf(line)) {
        work.add(book.componentId() == null ? line : line.withReadingsOf(book.componentId()));
      }
    }
    return new LogEntry(book, inspections, work);
  }

  private static boolean isWork(OrderLine line) {
    return line.isDone() && line.work().outcome() != Outcome.NOT_APPLICABLE;
  }

  private static boolean cameOf(OrderLine task) {
    return task.look() != null
        || task.work().isFinding()
        || !task.parts().isEmpty()
        || !task.readings().isEmpty();
  }

  private LogEntry.Inspected inspected(OrderLine line) {
    Map<Area, Integer> groups = new LinkedHashMap<>();
    paper.sheet().tasksOf(line.line().id()).stream()
        .filter(LogEntries::isWork)
        .forEach(task -> groups.merge(task.line().area(), 1, Integer::sum));
    String extent =
        groups.entrySet().stream()
            .map(each -> each.getKey().label() + " (" + tasks(each.getValue()) + ")")
            .collect(Collectors.joining(", "));
    return new LogEntry.Inspected(
        line, extent, Shown.grouped(Totals.read(line.work().times()).get(0).hours()));
  }

  private static String tasks(int count) {
    return Shown.plural(count, "task");
  }

  private List<Totals.Of> booksOf(OrderLine line) {
    UUID said = line.work().bookId();
    List<Totals.Of> chosen =
        paper.aircraft().id().equals(said)
            ? books.subList(0, 1)
            : books.stream().filter(b -> said != null && said.equals(b.componentId())).toList();
    if (!chosen.isEmpty()) {
      return chosen;
    }
    UUID component = component(line);
    List<Totals.Of> own =
        books.stream().filter(b -> component != null && component.equals(b.componentId())).toList();
    if (!own.isEmpty()) {
      return own;
    }
    if (line.line().inspection() && component == null) {
      return books.stream().filter(LogEntries::isKept).toList();
    }
    List<Totals.Of> byArea = byArea(line.line().area());
    boolean clear = byArea.size() == 1 || line.line().isTask() && !byArea.isEmpty();
    return clear ? byArea : List.of(books.get(0));
  }

  /** The component that a line names itself, or the inspection of which it is a task. */
  private UUID component(OrderLine line) {
    WorkOrderSheet sheet = paper.sheet();
    return line.line().componentId() != null || line.line().parentLine() == null
        ? line.line().componentId()
        : sheet
            .line(line.line().parentLine())
            .map(parent -> parent.line().componentId())
            .orElse(null);
  }

  private List<Totals.Of> byArea(Area area) {
    String kind =
        switch (area) {
          case ENGINE, ENGINE_CONTROLS -> "engine";
          case PROPELLER -> "propeller";
          default -> "aircraft";
        };
    return books.stream().filter(book -> book.kind().equals(kind)).toList();
  }

  private static boolean isKept(Totals.Of book) {
    return !book.kind().equals("other");
  }
}
