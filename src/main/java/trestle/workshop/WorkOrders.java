package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Work orders, from draft to work: drawn up, issued to the hangar, approved by the owner where that
 * is asked, started; or cancelled while nothing is signed. From its start to its release the
 * aircraft is held (14 CFR 91.407(a)).
 */
@ApplicationScoped
public class WorkOrders {
  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject Drafting drafting;
  @Inject WorkshopSettings settings;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * What an order says of itself.
   *
   * @param needsApproval whether the owner approves it before work starts
   */
  public record Terms(
      String title,
      String customer,
      String place,
      LocalDate plannedFrom,
      LocalDate plannedTo,
      boolean needsApproval) {

    public Terms {
      title = title == null ? "" : title.strip();
      customer = customer == null ? "" : customer.strip();
      place = place == null ? "" : place.strip();
    }

    public static Terms of(String title) {
      return new Terms(title, "", "", null, null, false);
    }
  }

  /**
   * Draws up an order.
   *
   * @return its id
   * @throws Refusal where a line is on an open order of the aircraft already
   */
  @Filing
  public UUID draft(
      Viewer viewer, UUID aircraftId, Terms terms, List<NewLine> lines, UUID formKey) {
    mayPlan(viewer);
    check(terms);
    revisions.bump(viewer, aircraftId);
    WorkOrder before = repository.ofForm(WorkOrder.class, formKey).orElse(null);
    if (before != null) {
      return before.entryId;
    }
    Instant now = clock.instant();
    WorkOrder row = row(viewer, aircraftId, terms);
    row.entryId = row.id();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    List<Filed> rows = new ArrayList<>();
    rows.add(row);
    rows.addAll(drafting.rows(new Drafting.For(viewer, aircraftId, row.entryId, now), lines, 0));
    row.year = row.happenedOn().getYear();
    repository.lock("work order numbers");
    row.number = repository.lastNumber(row.year) + 1;
    file(viewer, now, rows);
    return row.entryId;
  }

  /**
   * Says of an order what it should have said; its number and aircraft stay.
   *
   * @param rowId the row that the person saw
   */
  @Filing
  public void revise(Viewer viewer, UUID rowId, Terms terms, String reason, UUID formKey) {
    mayPlan(viewer);
    check(terms);
    WorkOrder original =
        repository
            .row(WorkOrder.class, rowId)
            .orElseThrow(() -> new NotHere("There is no such work order here."));
    revisions.bump(viewer, original.aircraftId);
    if (repository.ofForm(WorkOrder.class, formKey).isPresent()) {
      return;
    }
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why the order changes.");
    }
    if (repository.isCorrected(WorkOrder.class, rowId)) {
      throw new Stale("Someone changed this order since you opened this form.");
    }
    notOver(book.order(viewer, rowId));
    WorkOrder row = row(viewer, original.aircraftId, terms);
    row.entryId = original.entryId;
    row.year = original.year;
    row.number = original.number;
    row.happened(original.happenedAt(), original.happenedOn());
    row.correct(rowId, reason.strip());
    row.fromForm(formKey);
    file(viewer, clock.instant(), List.of(row));
  }

  /** Hands the order to the hangar: from here on its lines may be signed. */
  @Filing
  public void issue(Viewer viewer, UUID orderId, UUID formKey) {
    mayPlan(viewer);
    step(viewer, orderId, WorkOrderStep.ISSUED, "", formKey);
  }

  /** The owner agrees to the work. */
  @Filing
  public void approve(Viewer viewer, UUID orderId, String remark, UUID formKey) {
    if (!viewer.is(Role.OWNER)) {
      throw new Refusal("", "An owner approves the work.");
    }
    step(viewer, orderId, WorkOrderStep.APPROVED, remark, formKey);
  }

  /** Work begins: the aircraft is held until it is released. */
  @Filing
  public void start(Viewer viewer, UUID orderId, UUID formKey) {
    if (!viewer.isAny(Role.ENGINEER, Role.CONTROLLER, Role.OWNER)) {
      throw new Refusal("", "Work is started by engineers, controllers and owners.");
    }
    step(viewer, orderId, WorkOrderStep.STARTED, "", formKey);
  }

  /** Gives the order up; only while nothing was signed on it, and no part moved. */
  @Filing
  public void cancel(Viewer viewer, UUID orderId, String reason, UUID formKey) {
    mayPlan(viewer);
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      throw new Refusal("reason", "Reason is needed, in at most 500 characters.");
    }
    step(viewer, orderId, WorkOrderStep.CANCELLED, reason.strip(), formKey);
  }

  private void step(Viewer viewer, UUID orderId, String step, String remark, UUID formKey) {
    OrderSheet order = book.order(viewer, orderId).order();
    revisions.bump(viewer, order.aircraftId());
    if (repository.ofForm(WorkOrderStep.class, formKey).isPresent()) {
      return;
    }
    WorkOrderSheet sheet = book.order(viewer, orderId);
    notOver(sheet);
    if (sheet.did(step)) {
      throw new Stale("Order " + order.no() + " was " + step + " already.");
    }
    allowed(sheet, step);
    Instant now = clock.instant();
    WorkOrderStep row = step(sheet.order(), step, viewer, now);
    row.remark = remark == null ? "" : remark.strip();
    row.fromForm(formKey);
    file(viewer, now, List.of(row));
  }

  private static void allowed(WorkOrderSheet sheet, String step) {
    switch (step) {
      case WorkOrderStep.ISSUED -> {
        if (sheet.lines().isEmpty()) {
          throw new Refusal("", "An order without a line is not issued: add one first.");
        }
      }
      case WorkOrderStep.STARTED -> mayStart(sheet);
      case WorkOrderStep.CANCELLED -> {
        boolean touched =
            sheet.lines().stream().anyMatch(line -> line.isSigned() || !line.parts().isEmpty());
        if (touched) {
          throw new Refusal("", "Work was recorded on this order: it ends with a release.");
        }
      }
      default -> {
        // Approval may come at any time before the end.
      }
    }
  }

  /**
   * @throws Refusal where the order was not issued, or the owner has not approved it
   */
  static void mayStart(WorkOrderSheet sheet) {
    if (sheet.state() == OrderState.DRAFT) {
      throw new Refusal("", "Order " + sheet.order().no() + " is a draft: issue it first.");
    }
    if (sheet.awaitsApproval()) {
      throw new Refusal("", "The owner has not approved order " + sheet.order().no() + " yet.");
    }
  }

  /**
   * @throws Stale where the order is closed or cancelled
   */
  static void notOver(WorkOrderSheet sheet) {
    if (sheet.state().isOver()) {
      throw new Stale(
          "Order "
              + sheet.order().no()
              + " is over: "
              + sheet.state().label().toLowerCase(java.util.Locale.ROOT)
              + ". Nothing was filed.");
    }
  }

  /**
   * What is signed says which parts moved, and what was read: both are recorded, and put right,
   * before.
   *
   * @param what of the line that is to change
   */
  static void stillUnsigned(WorkOrderSheet order, UUID lineId, String what) {
    notOver(order);
    mayStart(order);
    OrderLine line =
        order.line(lineId).orElseThrow(() -> new Stale("This line was taken off meanwhile."));
    if (line.isSigned()) {
      throw new Stale(
          "Line " + line.line().ordinal() + " was signed meanwhile: its " + what + " stand.");
    }
  }

  /** That work started, where nobody has said so yet: the first record of work says it. */
  static List<WorkOrderStep> started(WorkOrderSheet sheet, Viewer viewer, Instant at) {
    return sheet.did(WorkOrderStep.STARTED)
        ? List.of()
        : List.of(step(sheet.order(), WorkOrderStep.STARTED, viewer, at));
  }

  private static WorkOrderStep step(OrderSheet order, String step, Viewer viewer, Instant at) {
    WorkOrderStep row = new WorkOrderStep();
    row.aircraftId = order.aircraftId();
    row.orderEntryId = order.id();
    row.step = step;
    row.happened(at, viewer.dateOf(at));
    return row;
  }

  static void mayPlan(Viewer viewer) {
    if (!viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)) {
      throw new Refusal("", "Work orders are for owners, controllers and engineers.");
    }
  }

  private static void check(Terms terms) {
    List<Refusal.Reason> faults = new ArrayList<>();
    if (terms.title().isEmpty() || terms.title().length() > 120) {
      faults.add(new Refusal.Reason("title", "Title must be said, in at most 120 characters."));
    }
    if (terms.customer().length() > 120 || terms.place().length() > 120) {
      faults.add(new Refusal.Reason("place", "Customer and place have at most 120 characters."));
    }
    if (terms.plannedFrom() != null
        && terms.plannedTo() != null
        && terms.plannedTo().isBefore(terms.plannedFrom())) {
      faults.add(new Refusal.Reason("planned-to", "Planned to must not be before planned from."));
    }
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private WorkOrder row(Viewer viewer, UUID aircraftId, Terms terms) {
    WorkOrder row = new WorkOrder();
    row.aircraftId = aircraftId;
    row.title = terms.title();
    row.customer = terms.customer();
    row.place = terms.place();
    row.plannedFrom = terms.plannedFrom();
    row.plannedTo = terms.plannedTo();
    row.needsApproval = terms.needsApproval() || settings.approvesAlways(viewer);
    return row;
  }

  private void file(Viewer viewer, Instant now, List<? extends Filed> rows) {
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), rows);
  }
}
