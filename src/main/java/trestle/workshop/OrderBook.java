package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.defects.DefectLine;
import trestle.defects.OpenDefects;
import trestle.ledger.View;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * Reading work orders, each with all its records, in a number of statements that stays the same.
 */
@ApplicationScoped
public class OrderBook {
  public static final int PAGE = 30;

  @Inject WorkRepository repository;
  @Inject ReadingRepository readings;
  @Inject OpenDefects defects;

  /** One page of orders, the newest first; page numbers begin at one. */
  public record Page(List<WorkOrderSheet> orders, int number, long all) {}

  /**
   * @param orderId any row of the order
   * @throws NotHere when the operator has no such order
   */
  @Reading
  public WorkOrderSheet order(Viewer viewer, UUID orderId) {
    WorkOrder row =
        repository
            .row(WorkOrder.class, orderId)
            .orElseThrow(() -> new NotHere("There is no such work order here."));
    return sheets(viewer, repository.orders(List.of(row.entryId), View.EVERYTHING), View.EVERYTHING)
        .get(row.entryId);
  }

  /**
   * The order of which a line is part.
   *
   * @param lineId any row of the line
   */
  @Reading
  public WorkOrderSheet ofLine(Viewer viewer, UUID lineId) {
    return order(viewer, line(lineId).orderEntryId);
  }

  /**
   * The order of which a signed record is part.
   *
   * @param workId any row of the record
   */
  @Reading
  public WorkOrderSheet ofWork(Viewer viewer, UUID workId) {
    return ofLine(
        viewer,
        repository
            .row(LineWork.class, workId)
            .orElseThrow(() -> new NotHere("There is no such record here."))
            .lineEntryId);
  }

  /** One part of a line. */
  @Reading
  public UsedPart part(Viewer viewer, UUID partId) {
    return repository
        .row(PartUse.class, partId)
        .map(UsedPart::of)
        .orElseThrow(() -> new NotHere("There is no such part here."));
  }

  /** A line of an order by its id. */
  static OrderLine line(WorkOrderSheet sheet, UUID lineId) {
    return sheet
        .line(lineId)
        .orElseThrow(() -> new NotHere("There is no such line here: it was taken off."));
  }

  /** The line on which a record was signed, whether that record still counts or not. */
  static OrderLine lineOfWork(WorkOrderSheet sheet, UUID workId) {
    return sheet.lines().stream()
        .filter(line -> line.record(workId) != null)
        .findFirst()
        .orElseThrow(() -> new NotHere("There is no such record here."));
  }

  /** Every row that was filed of one line, oldest first. */
  @Reading
  public List<LineSheet> rowsOfLine(Viewer viewer, UUID lineId) {
    return repository.lineRows(line(lineId).entryId).stream().map(LineSheet::of).toList();
  }

  /**
   * Orders of one aircraft, or with null of all.
   *
   * @param open only those that are neither closed nor cancelled
   */
  @Reading
  public Page page(Viewer viewer, UUID aircraftId, boolean open, int number) {
    long all = repository.count(aircraftId);
    int pages = (int) Math.max(1, (all + PAGE - 1) / PAGE);
    int at = Math.min(Math.max(1, number), pages);
    List<WorkOrder> rows =
        repository.orders(aircraftId, open, View.EVERYTHING, (at - 1) * PAGE, PAGE);
    return new Page(
        List.copyOf(sheets(viewer, rows, View.EVERYTHING).values()), at, open ? rows.size() : all);
  }

  /** The orders in which each aircraft is worked on, in a view. */
  @Reading
  public Map<UUID, List<WorkOrderSheet>> inWork(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<WorkOrderSheet>> orders = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      sheets(viewer, repository.inWork(aircraftIds, view), view)
          .values()
          .forEach(
              sheet ->
                  orders
                      .computeIfAbsent(sheet.order().aircraftId(), id -> new ArrayList<>())
                      .add(sheet));
    }
    return orders;
  }

  /** All orders that are issued and neither closed nor cancelled, by aircraft. */
  @Reading
  public Map<UUID, List<WorkOrderSheet>> open(Viewer viewer) {
    List<WorkOrder> rows = repository.orders(null, true, View.EVERYTHING, 0, 500);
    Map<UUID, List<WorkOrderSheet>> orders = new HashMap<>();
    sheets(viewer, rows, View.EVERYTHING)
        .values()
        .forEach(
            sheet -> {
              if (sheet.state() != OrderState.DRAFT) {
                orders
                    .computeIfAbsent(sheet.order().aircraftId(), id -> new ArrayList<>())
                    .add(sheet);
              }
            });
    return orders;
  }

  private WorkLine line(UUID lineId) {
    return repository
        .row(WorkLine.class, lineId)
        .orElseThrow(() -> new NotHere("There is no such line here."));
  }

  /** By order, in the order of the rows. */
  private Map<UUID, WorkOrderSheet> sheets(Viewer viewer, List<WorkOrder> rows, View view) {
    Map<UUID, WorkOrderSheet> sheets = new LinkedHashMap<>();
    if (rows.isEmpty()) {
      return sheets;
    }
    List<UUID> ids = rows.stream().map(row -> row.entryId).toList();
    Map<UUID, List<OrderLine>> lines = lines(viewer, rows, ids, view);
    Map<UUID, List<WorkOrderSheet.Step>> steps = new HashMap<>();
    for (WorkOrderStep row : repository.steps(ids, view)) {
      steps.computeIfAbsent(row.orderEntryId, id -> new ArrayList<>()).add(step(row));
    }
    Map<UUID, ReleaseSheet> releases = new HashMap<>();
    repository
        .releases(ids, view)
        .forEach(row -> releases.put(row.orderEntryId, ReleaseSheet.of(row)));
    for (WorkOrder row : rows) {
      sheets.put(
          row.entryId,
          new WorkOrderSheet(
              OrderSheet.of(row),
              steps.getOrDefault(row.entryId, List.of()),
              lines.getOrDefault(row.entryId, List.of()),
              releases.get(row.entryId)));
    }
    return sheets;
  }

  private static WorkOrderSheet.Step step(WorkOrderStep row) {
    return new WorkOrderSheet.Step(
        row.step, row.remark, row.happenedAt(), row.happenedOn(), row.recordedBy());
  }

  private Map<UUID, List<OrderLine>> lines(
      Viewer viewer, List<WorkOrder> rows, List<UUID> ids, View view) {
    Map<UUID, List<WorkSheet>> works = new HashMap<>();
    Set<UUID> corrected = new HashSet<>();
    for (LineWork row : repository.works(ids, view)) {
      works.computeIfAbsent(row.lineEntryId, id -> new ArrayList<>()).add(WorkSheet.of(row));
      corrected.add(row.corrects());
    }
    Map<UUID, SecondLook> looks = new HashMap<>();
    repository.inspections(ids, view).forEach(row -> looks.put(row.lineWorkId, SecondLook.of(row)));
    Map<UUID, LeftOpen> leftOpen = new HashMap<>();
    repository.deferrals(ids, view).forEach(row -> leftOpen.put(row.lineEntryId, LeftOpen.of(row)));
    Map<UUID, List<UsedPart>> parts = new HashMap<>();
    for (PartUse row : repository.parts(ids, view)) {
      parts.computeIfAbsent(row.lineEntryId, id -> new ArrayList<>()).add(UsedPart.of(row));
    }
    Map<UUID, List<ReadingSheet>> taken = new HashMap<>();
    for (WorkReading row : readings.ofOrders(ids, view)) {
      taken.computeIfAbsent(row.lineEntryId, id -> new ArrayList<>()).add(ReadingSheet.of(row));
    }
    Map<UUID, List<PhotoSheet>> photos = new HashMap<>();
    for (LinePhoto row : readings.photos(ids, view)) {
      photos.computeIfAbsent(row.lineEntryId, id -> new ArrayList<>()).add(PhotoSheet.of(row));
    }
    Set<UUID> deferred = deferredDefects(viewer, rows, view);
    Map<UUID, List<OrderLine>> lines = new HashMap<>();
    for (WorkLine row : repository.lines(ids, view)) {
      List<WorkSheet> all = works.getOrDefault(row.entryId, List.of());
      WorkSheet work =
          all.stream()
              .filter(one -> !one.voided() && !corrected.contains(one.id()))
              .findFirst()
              .orElse(null);
      lines
          .computeIfAbsent(row.orderEntryId, id -> new ArrayList<>())
          .add(
              new OrderLine(
                  LineSheet.of(row),
                  work,
                  all.stream().filter(one -> one != work).toList(),
                  work == null ? null : looks.get(work.id()),
                  leftOpen.get(row.entryId),
                  parts.getOrDefault(row.entryId, List.of()),
                  taken.getOrDefault(row.entryId, List.of()),
                  photos.getOrDefault(row.entryId, List.of()),
                  row.defectEntryId != null && deferred.contains(row.defectEntryId)));
    }
    return lines;
  }

  private Set<UUID> deferredDefects(Viewer viewer, List<WorkOrder> rows, View view) {
    Set<UUID> deferred = new HashSet<>();
    List<UUID> aircraft = rows.stream().map(row -> row.aircraftId).distinct().toList();
    defects
        .of(viewer, aircraft, view)
        .values()
        .forEach(
            lines ->
                lines.stream()
                    .filter(line -> !line.decided().isEmpty() && !line.state().equals("run out"))
                    .map(DefectLine::entryId)
                    .forEach(deferred::add));
    return deferred;
  }

  static <T> T lastOf(List<T> all) {
    return all.get(all.size() - 1);
  }
}
