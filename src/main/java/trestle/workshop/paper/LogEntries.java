package trestle.workshop.paper;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
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
 * inspection. What left while the order ran has its own entries still. What was read of another
 * engine than the book's is left out of it.
 */
final class LogEntries {
  private static final List<String> ORDER = List.of("aircraft", "engine", "propeller", "other");

  private final Paper paper;
  private final List<Totals.Of> books;
  private final List<Totals.Of> gone;

  private LogEntries(Paper paper) {
    this.paper = paper;
    this.books = paper.totals();
    this.gone = gone();
  }

  /** What left while the order ran: its book goes with it, and says its totals as it was left. */
  private List<Totals.Of> gone() {
    Map<UUID, Totals.Of> gone = new LinkedHashMap<>();
    paper.sheet().lines().stream()
        .filter(LogEntries::isWork)
        .sorted(Comparator.comparing(line -> line.work().at()))
        .flatMap(line -> Totals.read(line.work().times()).stream())
        .filter(of -> of.componentId() != null && isKept(of))
        .forEach(of -> gone.put(of.componentId(), of));
    books.forEach(book -> gone.remove(book.componentId()));
    return List.copyOf(gone.values());
  }

  /**
   * The airframe's first, then engines, then propellers; books in which nothing is to be entered
   * are left out.
   */
  static List<LogEntry> of(Paper paper) {
    LogEntries entries = new LogEntries(paper);
    return Stream.concat(entries.books.stream(), entries.gone.stream())
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

  /** Signed, and not as what does not apply; a second person may still have to look at it. */
  private static boolean isWork(OrderLine line) {
    return line.isSigned() && line.work().outcome() != Outcome.NOT_APPLICABLE;
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
        paper.aircraft().id().equals(said) ? books.subList(0, 1) : bookOf(said);
    if (!chosen.isEmpty()) {
      return chosen;
    }
    UUID component = component(line);
    List<Totals.Of> own = bookOf(component);
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

  private List<Totals.Of> bookOf(UUID component) {
    return Stream.concat(books.stream(), gone.stream())
        .filter(book -> component != null && component.equals(book.componentId()))
        .toList();
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
