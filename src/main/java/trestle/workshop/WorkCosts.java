package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.InstantSource;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Costs of an order: an estimate before, what it took after. What the owner has approved is not
 * estimated anew: what comes on top stands among the actual costs.
 */
@ApplicationScoped
public class WorkCosts {
  @Inject CostRepository costs;
  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject WorkshopSettings settings;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * A sum to file.
   *
   * @param lineId the line it is of, or null for the whole order
   * @param words of labour who worked, else what was bought
   * @param minutes of labour, with {@code rate}; else null
   * @param amount of anything else; else null
   * @param currency three capitals, such as EUR
   * @param labourRateId the stated rate that counts today, in the place of rate and currency; else
   *     null
   */
  public record NewCost(
      UUID orderId,
      UUID lineId,
      boolean estimate,
      CostKind kind,
      String words,
      Integer minutes,
      BigDecimal rate,
      BigDecimal amount,
      String currency,
      UUID labourRateId) {

    public NewCost(
        UUID orderId,
        UUID lineId,
        boolean estimate,
        CostKind kind,
        String words,
        Integer minutes,
        BigDecimal rate,
        BigDecimal amount,
        String currency) {
      this(orderId, lineId, estimate, kind, words, minutes, rate, amount, currency, null);
    }

    /** The same by a stated rate; its name says who or what, where nothing was said. */
    NewCost by(WorkshopSettings.Rate stated) {
      String who = words == null || words.isBlank() ? stated.name() : words;
      return new NewCost(
          orderId,
          lineId,
          estimate,
          kind,
          who,
          minutes,
          stated.hourly(),
          amount,
          stated.currency(),
          stated.id());
    }
  }

  /**
   * Files a sum.
   *
   * @throws Refusal where it is not said whole, or in another currency than the order's
   */
  @Filing
  public UUID file(Viewer viewer, NewCost typed, UUID formKey) {
    WorkOrders.mayPlan(viewer);
    revisions.bump(viewer, book.order(viewer, typed.orderId()).order().aircraftId());
    WorkCost before = repository.ofForm(WorkCost.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    NewCost asked = typed.labourRateId() == null ? typed : typed.by(stated(viewer, typed));
    WorkOrderSheet order = book.order(viewer, asked.orderId());
    check(order, asked, of(viewer, order));
    WorkCost row = row(order, asked);
    Instant now = clock.instant();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
    return row.id();
  }

  private WorkshopSettings.Rate stated(Viewer viewer, NewCost typed) {
    if (typed.kind() != CostKind.LABOUR) {
      throw new Refusal("labour-rate", "A stated rate is of labour alone.");
    }
    if (typed.rate() != null) {
      throw new Refusal("rate", "Rate of an hour is either chosen or typed: leave one blank.");
    }
    return settings
        .inForce(viewer, typed.labourRateId(), viewer.dateOf(clock.instant()))
        .orElseThrow(() -> new Refusal("labour-rate", "The stated rate must be one of today."));
  }

  private static void check(WorkOrderSheet order, NewCost asked, Costing sofar) {
    if (order.state() == OrderState.CANCELLED) {
      throw new Stale("Order " + order.order().no() + " was cancelled. Nothing was filed.");
    }
    if (asked.estimate() && order.did(WorkOrderStep.APPROVED)) {
      throw new Refusal(
          "stage",
          "The owner has approved the estimate: file what comes on top among the actual costs.");
    }
    if (asked.estimate() && order.state().isOver()) {
      throw new Refusal("stage", "The order is closed: there is nothing left to estimate.");
    }
    if (asked.words() == null || asked.words().isBlank()) {
      throw new Refusal("words", "What or who must be said.");
    }
    boolean labour = asked.kind() == CostKind.LABOUR;
    if (labour && (asked.minutes() == null || asked.minutes() < 1)) {
      throw new Refusal("minutes", "Minutes are needed of labour.");
    }
    if (labour && asked.rate() == null) {
      throw new Refusal("rate", "The rate of an hour is needed of labour.");
    }
    if (!labour && asked.amount() == null) {
      throw new Refusal("amount", "Amount is needed.");
    }
    if (!labour && (asked.minutes() != null || asked.rate() != null)) {
      throw new Refusal("minutes", "Minutes and a rate are of labour alone.");
    }
    if (asked.currency() == null || !asked.currency().matches("[A-Z]{3}")) {
      throw new Refusal("currency", "Currency must be three capitals, such as EUR.");
    }
    if (!sofar.sums().isEmpty() && !sofar.currency().equals(asked.currency())) {
      throw new Refusal("currency", "Currency must be " + sofar.currency() + ", as of the others.");
    }
    if (asked.lineId() != null && order.line(asked.lineId()).isEmpty()) {
      throw new Refusal("line", "Line must be one of this order.");
    }
  }

  private static WorkCost row(WorkOrderSheet order, NewCost asked) {
    boolean labour = asked.kind() == CostKind.LABOUR;
    WorkCost row = new WorkCost();
    row.aircraftId = order.order().aircraftId();
    row.orderEntryId = order.order().id();
    row.lineEntryId = asked.lineId();
    row.stage = asked.estimate() ? "estimate" : "actual";
    row.kind = asked.kind().word();
    row.words = asked.words().strip();
    row.minutes = asked.minutes();
    row.hourlyRate = labour ? asked.rate().setScale(2) : null;
    row.amount =
        labour ? Costing.labour(asked.minutes(), asked.rate()) : asked.amount().setScale(2);
    row.currency = asked.currency();
    row.labourRateId = asked.labourRateId();
    return row;
  }

  /** Takes a sum away that should not stand; of an approved estimate none. */
  @Filing
  public void takeAway(Viewer viewer, UUID costId, String reason, UUID formKey) {
    WorkOrders.mayPlan(viewer);
    WorkCost original =
        repository
            .row(WorkCost.class, costId)
            .orElseThrow(() -> new NotHere("There is no such sum here."));
    revisions.bump(viewer, original.aircraftId);
    if (repository.ofForm(WorkCost.class, formKey).isPresent()) {
      return;
    }
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it should not stand.");
    }
    if (original.voided != null || repository.isCorrected(WorkCost.class, costId)) {
      throw new Stale("Someone took this sum away already.");
    }
    boolean approved = book.order(viewer, original.orderEntryId).did(WorkOrderStep.APPROVED);
    if (approved && original.stage.equals("estimate")) {
      throw new Refusal("cost", "The owner has approved the estimate: it stands.");
    }
    WorkCost row = original.again();
    row.voided = true;
    row.happened(original.happenedAt(), original.happenedOn());
    row.correct(costId, reason.strip());
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }

  @Reading
  public Costing of(Viewer viewer, WorkOrderSheet order) {
    return new Costing(costs.of(order.order().id()).stream().map(row -> sum(order, row)).toList());
  }

  private static Costing.Sum sum(WorkOrderSheet order, WorkCost row) {
    return new Costing.Sum(
        row.id(),
        row.stage.equals("estimate"),
        CostKind.parse(row.kind),
        row.words,
        row.minutes,
        row.hourlyRate,
        row.amount,
        row.currency,
        row.lineEntryId == null
            ? null
            : order.line(row.lineEntryId).map(line -> line.line().ordinal()).orElse(null),
        row.happenedOn());
  }
}
