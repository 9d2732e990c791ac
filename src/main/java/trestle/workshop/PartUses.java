package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.Placement;
import trestle.fleet.Revisions;
import trestle.fleet.Spot;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Parts on a line: what came off and went on (here components of the records are removed and
 * fitted), and what was used up. A part may be recorded before its paper has come; without the
 * paper that the rule profile asks for the aircraft is not released.
 */
@ApplicationScoped
public class PartUses {
  private static final String PARTS = "parts";

  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject Fitments fitments;
  @Inject Components components;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** A component of the records that is removed. */
  public record Off(UUID lineId, UUID componentId, Instant at, String why, boolean scheduled) {}

  /** A component of the records that is fitted. */
  public record On(UUID lineId, UUID componentId, Spot spot, Instant at, String evidence) {}

  /**
   * A part without a record of its own that went on, came off, or was used up.
   *
   * @param movement {@code on}, {@code off} or {@code used}
   * @param batch of a material or a standard part, or ""
   */
  public record Used(
      UUID lineId,
      String movement,
      PartKept kept,
      String description,
      String partNumber,
      String serial,
      String batch,
      BigDecimal quantity,
      String unit,
      String evidence) {}

  /**
   * Removes a component from where it is.
   *
   * @return the id of the record
   */
  @Filing
  public UUID off(Viewer viewer, Off asked, UUID formKey) {
    WorkOrderSheet order = open(viewer, asked.lineId());
    UUID before = filed(formKey);
    if (before != null) {
      return before;
    }
    WorkOrders.stillUnsigned(order, asked.lineId(), PARTS);
    ComponentHistory component = component(viewer, asked.componentId());
    Placement placed = component.placed();
    boolean here =
        component.fitted() != null
            && component.fitted().aircraftId().equals(order.order().aircraftId());
    if (placed == null || !here) {
      throw new Refusal("component", "It is not fitted to this aircraft: look where it is.");
    }
    String where = component.fitted().positionLabel();
    UUID removal =
        fitments.remove(
            viewer,
            new Fitments.Remove(
                placed.fitmentId(), asked.at(), asked.why(), asked.scheduled(), null));
    PartUse row = ofComponent(order, asked.lineId(), component.sheet(), PartUse.OFF);
    row.fitmentId = placed.fitmentId();
    row.removalId = removal;
    row.place = where;
    return file(viewer, order, row, asked.at(), formKey);
  }

  /**
   * Fits a component.
   *
   * @throws Refusal at {@code component} where it is fitted elsewhere or does not belong there
   */
  @Filing
  public UUID on(Viewer viewer, On asked, UUID formKey) {
    WorkOrderSheet order = open(viewer, asked.lineId());
    UUID before = filed(formKey);
    if (before != null) {
      return before;
    }
    WorkOrders.stillUnsigned(order, asked.lineId(), PARTS);
    ComponentHistory component = component(viewer, asked.componentId());
    onThisAircraft(viewer, order, asked.spot());
    UUID fitment =
        fitments.fit(viewer, new Fitments.Fit(asked.componentId(), asked.spot(), asked.at(), null));
    PartUse row = ofComponent(order, asked.lineId(), component.sheet(), PartUse.ON);
    row.fitmentId = fitment;
    row.evidence = text("evidence", "Evidence", asked.evidence(), 200);
    row.place = asked.spot().place() == null ? asked.spot().positionCode() : asked.spot().place();
    return file(viewer, order, row, asked.at(), formKey);
  }

  /** Records a part that has no record of its own. */
  @Filing
  public UUID used(Viewer viewer, Used asked, UUID formKey) {
    WorkOrderSheet order = open(viewer, asked.lineId());
    UUID before = filed(formKey);
    if (before != null) {
      return before;
    }
    WorkOrders.stillUnsigned(order, asked.lineId(), PARTS);
    if (asked.description() == null || asked.description().isBlank()) {
      throw new Refusal("description", "Description is needed: say what it is.");
    }
    if (asked.quantity() == null
        || asked.quantity().signum() <= 0
        || asked.quantity().compareTo(BigDecimal.valueOf(100_000)) > 0) {
      throw new Refusal("quantity", "Quantity must be more than nothing, at most 100,000.");
    }
    if (asked.kept() == PartKept.MATERIAL && (asked.batch() == null || asked.batch().isBlank())) {
      throw new Refusal("batch", "Batch is needed of a material.");
    }
    PartUse row = new PartUse();
    row.aircraftId = order.order().aircraftId();
    row.lineEntryId = order.line(asked.lineId()).orElseThrow().line().id();
    row.movement = asked.movement();
    row.partClass = asked.kept().word();
    row.description = text("description", "Description", asked.description(), 120);
    row.partNumber = text("part-number", "Part number", asked.partNumber(), 60);
    row.serial = text("serial", "Serial", asked.serial(), 60);
    row.batch = text("batch", "Batch", asked.batch(), 60);
    row.quantity = asked.quantity();
    row.unit = text("unit", "Unit", asked.unit(), 20);
    row.evidence = text("evidence", "Evidence", asked.evidence(), 200);
    return file(viewer, order, row, clock.instant(), formKey);
  }

  /** The paper that came with a part after it was recorded, or another than was written. */
  @Filing
  public void evidence(Viewer viewer, UUID partId, String evidence, String reason, UUID formKey) {
    PartUse original = changeable(viewer, partId, formKey);
    if (original == null) {
      return;
    }
    if (evidence == null || evidence.isBlank()) {
      throw new Refusal("evidence", "Evidence must name the paper that came with the part.");
    }
    PartUse row = original.again();
    row.evidence = text("evidence", "Evidence", evidence, 200);
    correct(viewer, row, original, reason, formKey);
  }

  /**
   * Takes a part off the record that has no record of its own; a component is put back by another
   * fitting or removal.
   */
  @Filing
  public void takeAway(Viewer viewer, UUID partId, String reason, UUID formKey) {
    PartUse original = changeable(viewer, partId, formKey);
    if (original == null) {
      return;
    }
    if (original.fitmentId != null) {
      throw new Refusal("", "It was fitted or removed here: put that right on its own page.");
    }
    WorkOrders.stillUnsigned(
        book.ofLine(viewer, original.lineEntryId), original.lineEntryId, PARTS);
    PartUse row = original.again();
    row.voided = true;
    correct(viewer, row, original, reason, formKey);
  }

  private void correct(Viewer viewer, PartUse row, PartUse original, String reason, UUID formKey) {
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      throw new Refusal("reason", "Reason is needed, in at most 500 characters.");
    }
    row.happened(original.happenedAt(), original.happenedOn());
    row.correct(original.id(), reason.strip());
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }

  private PartUse changeable(Viewer viewer, UUID partId, UUID formKey) {
    mayWork(viewer);
    PartUse original =
        repository
            .row(PartUse.class, partId)
            .orElseThrow(() -> new NotHere("There is no such part here."));
    revisions.bump(viewer, original.aircraftId);
    if (filed(formKey) != null) {
      return null;
    }
    if (original.voided != null || repository.isCorrected(PartUse.class, partId)) {
      throw new Stale("Someone changed this part since you opened this form.");
    }
    return original;
  }

  /** The line's order, its aircraft locked. */
  private WorkOrderSheet open(Viewer viewer, UUID lineId) {
    mayWork(viewer);
    WorkLine line =
        repository
            .row(WorkLine.class, lineId)
            .orElseThrow(() -> new NotHere("There is no such line here."));
    revisions.bump(viewer, line.aircraftId);
    return book.order(viewer, line.orderEntryId);
  }

  private UUID filed(UUID formKey) {
    return repository.ofForm(PartUse.class, formKey).map(Filed::id).orElse(null);
  }

  private static void mayWork(Viewer viewer) {
    if (!viewer.is(Role.ENGINEER)) {
      throw new Refusal("", "Parts are recorded by an engineer.");
    }
  }

  /** A position of this aircraft, or a place in a part that is fitted to it. */
  private void onThisAircraft(Viewer viewer, WorkOrderSheet order, Spot spot) {
    UUID aircraft = order.order().aircraftId();
    boolean there = aircraft.equals(spot.aircraftId());
    if (spot.assemblyId() != null) {
      ComponentHistory assembly = component(viewer, spot.assemblyId());
      there = assembly.fitted() != null && assembly.fitted().aircraftId().equals(aircraft);
    }
    if (!there) {
      throw new Refusal("place", "Place must be on the aircraft of this order.");
    }
  }

  private ComponentHistory component(Viewer viewer, UUID componentId) {
    return components.history(viewer, componentId, View.EVERYTHING);
  }

  private static PartUse ofComponent(
      WorkOrderSheet order, UUID lineId, ComponentSheet component, String movement) {
    PartUse row = new PartUse();
    row.aircraftId = order.order().aircraftId();
    row.lineEntryId = order.line(lineId).orElseThrow().line().id();
    row.movement = movement;
    row.partClass = PartKept.COMPONENT.word();
    row.description = component.description();
    row.partNumber = component.partNumber();
    row.serial = component.serial();
    row.quantity = BigDecimal.ONE;
    row.componentId = component.id();
    return row;
  }

  private UUID file(Viewer viewer, WorkOrderSheet order, PartUse row, Instant at, UUID formKey) {
    row.happened(at, viewer.dateOf(at));
    row.fromForm(formKey);
    List<Filed> rows = new ArrayList<>(WorkOrders.started(order, viewer, at));
    rows.add(row);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), rows);
    return row.id();
  }

  private static String text(String field, String label, String value, int most) {
    String text = value == null ? "" : value.strip();
    if (text.length() > most) {
      throw new Refusal(field, label + " must be at most " + most + " characters.");
    }
    return text;
  }
}
