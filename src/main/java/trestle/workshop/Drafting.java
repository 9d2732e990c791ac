package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.defects.DefectBook;
import trestle.defects.DefectSheet;
import trestle.ledger.View;
import trestle.programme.DueItems;
import trestle.standing.DueItem;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** Makes the rows of new lines from what they come from. */
@ApplicationScoped
class Drafting {
  @Inject WorkRepository repository;
  @Inject ReleaseRepository closed;
  @Inject DueItems dueItems;
  @Inject DefectBook defects;
  @Inject TaskLists taskLists;

  /** For which order, and at which moment. */
  record For(Viewer viewer, UUID aircraftId, UUID orderId, Instant now) {
    LocalDate today() {
      return viewer.dateOf(now);
    }
  }

  /** What the lines asked for come from, read once for all of them. */
  private record Sources(
      Map<String, DueItem> due,
      Map<UUID, DefectBook.Entry> defects,
      Map<UUID, List<TaskLists.Task>> tasks,
      Map<UUID, WorkRelease> releases,
      Map<UUID, WorkLine> putOff,
      Set<String> taken) {}

  /**
   * @param last the ordinal of the order's last line
   * @throws Refusal at {@code items} where a line can't be put on the order
   */
  List<WorkLine> rows(For order, List<NewLine> asked, int last) {
    Sources sources = sources(order, asked);
    List<WorkLine> rows = new ArrayList<>();
    int ordinal = last;
    for (NewLine line : asked) {
      WorkLine row = row(order, line, sources);
      row.ordinal = ++ordinal;
      if (!sources.taken.add(key(row))) {
        throw new Refusal("items", row.title + " is on an open work order of this aircraft.");
      }
      rows.add(row);
      for (TaskLists.Task task : sources.tasks.getOrDefault(row.requirementId, List.of())) {
        WorkLine each = task(order, row, task);
        each.ordinal = ++ordinal;
        rows.add(each);
      }
    }
    return rows;
  }

  private Sources sources(For order, List<NewLine> asked) {
    View now = View.asAt(order.today());
    Map<String, DueItem> due = new HashMap<>();
    Set<UUID> requirements = ids(asked, WorkLine.REQUIREMENT);
    if (!requirements.isEmpty()) {
      dueItems
          .dueItems(order.viewer, List.of(order.aircraftId), now)
          .getOrDefault(order.aircraftId, List.of())
          .forEach(item -> due.put(item.requirementId() + " " + item.subject().id(), item));
    }
    Map<UUID, WorkRelease> releases = new HashMap<>();
    closed
        .notAirworthy(List.of(order.aircraftId), View.EVERYTHING)
        .forEach(row -> releases.put(row.id(), row));
    Map<UUID, WorkLine> putOff = new HashMap<>();
    for (UUID id : ids(asked, WorkLine.PUT_OFF)) {
      repository.lineRows(id).forEach(row -> putOff.put(row.entryId, row));
    }
    return new Sources(
        due,
        defects.entries(order.viewer, ids(asked, WorkLine.DEFECT)),
        taskLists.tasks(order.viewer, requirements),
        releases,
        putOff,
        taken(order));
  }

  private static Set<UUID> ids(List<NewLine> asked, String origin) {
    Set<UUID> ids = new HashSet<>();
    asked.stream()
        .filter(line -> line.origin().equals(origin))
        .forEach(line -> ids.add(line.sourceId()));
    return ids;
  }

  /** What stands on the open orders of the aircraft already. */
  private Set<String> taken(For order) {
    List<UUID> open =
        repository.orders(order.aircraftId, true, View.EVERYTHING, 0, 1_000).stream()
            .map(row -> row.entryId)
            .toList();
    Set<String> taken = new HashSet<>();
    if (!open.isEmpty()) {
      repository.lines(open, View.EVERYTHING).forEach(row -> taken.add(key(row)));
    }
    return taken;
  }

  /** Equal for lines about the same thing; a free line is like no other. */
  private static String key(WorkLine row) {
    return switch (row.origin) {
      case WorkLine.REQUIREMENT -> row.requirementId + " " + row.componentId;
      case WorkLine.DEFECT -> row.defectEntryId.toString();
      case WorkLine.PUT_OFF -> row.fromLine.toString();
      case WorkLine.DISCREPANCY -> row.fromRelease + " " + row.fromOrdinal;
      default -> row.entryId.toString();
    };
  }

  private WorkLine row(For order, NewLine line, Sources sources) {
    WorkLine row = blank(order, line.origin());
    row.dataReference = line.dataReference().strip();
    row.rating = line.rating().strip();
    row.independent = line.independent();
    switch (line.origin()) {
      case WorkLine.REQUIREMENT -> due(row, order, line, sources);
      case WorkLine.DEFECT -> defect(row, order, sources.defects.get(line.sourceId()));
      case WorkLine.DISCREPANCY -> discrepancy(row, line, sources.releases.get(line.sourceId()));
      case WorkLine.PUT_OFF -> putOff(row, order, sources.putOff.get(line.sourceId()));
      default -> free(row, line);
    }
    if (line.area() != null) {
      row.area = line.area().word();
    }
    row.independent |= Area.parse(row.area).alwaysInspected();
    return row;
  }

  private static void due(WorkLine row, For order, NewLine line, Sources sources) {
    UUID subject = line.componentId() == null ? order.aircraftId : line.componentId();
    DueItem item = sources.due.get(line.sourceId() + " " + subject);
    if (item == null) {
      throw new Refusal("items", "What is due must be this aircraft's: choose it from the list.");
    }
    row.requirementId = item.requirementId();
    row.componentId = item.subject().isAircraft() ? null : item.subject().id();
    row.inspection = item.kind().equals("inspection");
    row.title =
        item.subject().isAircraft() ? item.title() : item.title() + ": " + item.subject().words();
    row.dataReference = row.dataReference.isEmpty() ? item.sourceReference() : row.dataReference;
    row.area =
        switch (item.subject().kind()) {
          case "engine" -> Area.ENGINE.word();
          case "propeller" -> Area.PROPELLER.word();
          case "aircraft" -> Area.WHOLE_AIRCRAFT.word();
          default -> Area.OTHER.word();
        };
  }

  private static void defect(WorkLine row, For order, DefectBook.Entry entry) {
    if (entry == null || !entry.current().aircraftId().equals(order.aircraftId)) {
      throw new NotHere("There is no such defect of this aircraft here.");
    }
    DefectSheet defect = entry.current();
    if (!entry.isOpen()) {
      throw new Refusal("items", "Defect " + defect.no() + " was put right already.");
    }
    row.defectEntryId = defect.entryId();
    row.title = "Defect " + defect.no() + ": " + cut(defect.defect().words(), 260);
    row.componentId = defect.defect().componentId();
    row.area = Area.ofChapter(defect.chapter()).word();
  }

  private static void discrepancy(WorkLine row, NewLine line, WorkRelease release) {
    if (release == null
        || line.ordinal() < 1
        || line.ordinal() > release.discrepancies.length
        || release.airworthy) {
      throw new NotHere("There is no such discrepancy of this aircraft here.");
    }
    row.fromRelease = release.id();
    row.fromOrdinal = line.ordinal();
    row.title = cut(release.discrepancies[line.ordinal() - 1], 300);
    row.area = Area.OTHER.word();
  }

  private static void putOff(WorkLine row, For order, WorkLine before) {
    if (before == null || !before.aircraftId.equals(order.aircraftId)) {
      throw new NotHere("There is no such line of this aircraft here.");
    }
    row.fromLine = before.entryId;
    row.title = before.title;
    row.area = before.area;
    row.dataReference = before.dataReference;
    row.rating = before.rating;
    row.independent = before.independent;
  }

  private static void free(WorkLine row, NewLine line) {
    if (line.title() == null || line.title().isBlank() || line.title().length() > 300) {
      throw new Refusal("title", "What is to be done must be said, in at most 300 characters.");
    }
    row.title = line.title().strip();
    row.area = Area.OTHER.word();
  }

  private static WorkLine task(For order, WorkLine parent, TaskLists.Task task) {
    WorkLine row = blank(order, WorkLine.TASK);
    row.parentLine = parent.entryId;
    row.title = task.title();
    row.area = task.area().word();
    row.dataReference = task.data().isEmpty() ? parent.dataReference : task.data();
    row.independent = task.independent() || task.area().alwaysInspected();
    return row;
  }

  static WorkLine blank(For order, String origin) {
    WorkLine row = new WorkLine();
    row.aircraftId = order.aircraftId;
    row.orderEntryId = order.orderId;
    row.entryId = row.id();
    row.origin = origin;
    row.happened(order.now, order.today());
    return row;
  }

  static String cut(String words, int most) {
    String line = words.replaceAll("\\s+", " ").strip();
    return line.length() <= most ? line : line.substring(0, most - 1) + "…";
  }

  /** In small letters, for comparing what people write. */
  static boolean same(String one, String other) {
    return one.strip().toLowerCase(Locale.ROOT).equals(other.strip().toLowerCase(Locale.ROOT));
  }
}
