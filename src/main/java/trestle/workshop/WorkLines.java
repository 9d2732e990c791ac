package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** The lines of work orders: put on, changed, taken off while nothing is signed on them. */
@ApplicationScoped
public class WorkLines {
  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject Drafting drafting;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** What a line should say. */
  public record Change(
      String title, Area area, String dataReference, String rating, boolean independent) {}

  /**
   * Puts lines on an order, with the tasks of their lists.
   *
   * @return the ids of the lines asked for, in their order
   */
  @Filing
  public List<UUID> add(Viewer viewer, UUID orderId, List<NewLine> asked, UUID formKey) {
    WorkOrders.mayPlan(viewer);
    UUID aircraft = book.order(viewer, orderId).order().aircraftId();
    revisions.bump(viewer, aircraft);
    WorkLine before = repository.ofForm(WorkLine.class, formKey).orElse(null);
    if (before != null) {
      return List.of(before.entryId);
    }
    if (asked.isEmpty()) {
      throw new Refusal("items", "Choose what to put on the order, or write a line of its own.");
    }
    WorkOrderSheet order = book.order(viewer, orderId);
    WorkOrders.notOver(order);
    Instant now = clock.instant();
    List<WorkLine> rows =
        drafting.rows(
            new Drafting.For(viewer, aircraft, order.order().id(), now),
            asked,
            repository.lastOrdinal(order.order().id()));
    rows.get(0).fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), rows);
    return rows.stream().filter(row -> row.parentLine == null).map(row -> row.entryId).toList();
  }

  /**
   * Says of a line what it should say.
   *
   * @param rowId the row that the person saw
   */
  @Filing
  public void revise(Viewer viewer, UUID rowId, Change change, String reason, UUID formKey) {
    WorkLine original = changeable(viewer, rowId, reason, formKey);
    if (original == null) {
      return;
    }
    if (change.title() == null || change.title().isBlank() || change.title().length() > 300) {
      throw new Refusal("title", "What is to be done must be said, in at most 300 characters.");
    }
    WorkLine row = original.again();
    row.title = change.title().strip();
    row.area = change.area().word();
    row.dataReference = change.dataReference().strip();
    row.rating = change.rating().strip();
    row.independent = change.independent() || change.area().alwaysInspected();
    row.happened(original.happenedAt(), original.happenedOn());
    row.correct(rowId, reason.strip());
    row.fromForm(formKey);
    ledger.file(act(viewer), row);
  }

  /** Takes a line off, with its tasks; it stays to be seen. */
  @Filing
  public void takeOff(Viewer viewer, UUID rowId, String reason, UUID formKey) {
    WorkLine original = changeable(viewer, rowId, reason, formKey);
    if (original == null) {
      return;
    }
    List<WorkLine> rows = new ArrayList<>();
    WorkOrderSheet order = book.order(viewer, original.orderEntryId);
    for (OrderLine task : order.tasksOf(original.entryId)) {
      rows.add(off(row(task.line().rowId()), reason));
    }
    WorkLine row = off(original, reason);
    row.fromForm(formKey);
    rows.add(row);
    ledger.file(act(viewer), rows);
  }

  private static WorkLine off(WorkLine original, String reason) {
    WorkLine row = original.again();
    row.voided = true;
    row.happened(original.happenedAt(), original.happenedOn());
    row.correct(original.id(), reason.strip());
    return row;
  }

  /** The line's row, its aircraft locked; null where this form was filed before. */
  private WorkLine changeable(Viewer viewer, UUID rowId, String reason, UUID formKey) {
    WorkOrders.mayPlan(viewer);
    WorkLine original = row(rowId);
    revisions.bump(viewer, original.aircraftId);
    if (repository.ofForm(WorkLine.class, formKey).isPresent()) {
      return null;
    }
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      throw new Refusal("reason", "Reason is needed, in at most 500 characters.");
    }
    if (repository.isCorrected(WorkLine.class, rowId)) {
      throw new Stale("Someone changed this line since you opened this form.");
    }
    WorkOrderSheet order = book.order(viewer, original.orderEntryId);
    WorkOrders.notOver(order);
    OrderLine line =
        order
            .line(original.entryId)
            .orElseThrow(() -> new Stale("This line was taken off meanwhile."));
    boolean touched =
        line.isSigned()
            || !line.parts().isEmpty()
            || order.tasksOf(original.entryId).stream()
                .anyMatch(task -> task.isSigned() || !task.parts().isEmpty());
    if (touched) {
      throw new Refusal("", "Work was recorded on this line: what was signed stays.");
    }
    return original;
  }

  private WorkLine row(UUID rowId) {
    return repository
        .row(WorkLine.class, rowId)
        .orElseThrow(() -> new NotHere("There is no such line here."));
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
