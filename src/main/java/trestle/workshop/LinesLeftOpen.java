package trestle.workshop;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Rows;
import trestle.ledger.View;
import trestle.people.Members.LicenceLine;
import trestle.people.Proof;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Lines that a release leaves open, on a named authority and until a day. A defect is deferred by
 * itself, under the rules for that; a task of an inspection is done, or does not apply.
 */
@ApplicationScoped
public class LinesLeftOpen {
  @Inject WorkRepository repository;
  @Inject ReleaseRepository closed;
  @Inject OrderBook book;
  @Inject Entitled entitled;
  @Inject Revisions revisions;
  @Inject Signatures signatures;
  @Inject Rows rows;
  @Inject InstantSource clock;

  /**
   * @param authority who allows it
   * @param reference of the paper that says so
   * @param lastDay on which it may still be open
   */
  public record Leaving(String why, String authority, String reference, LocalDate lastDay) {}

  /** A line that was left open and not done since. */
  public record Standing(LeftOpen leftOpen, LineSheet line) {}

  @Filing
  public UUID leave(
      Viewer viewer,
      Proof proof,
      UUID lineRowId,
      Leaving asked,
      String licenceNumber,
      UUID formKey) {
    WorkLine row =
        repository
            .row(WorkLine.class, lineRowId)
            .orElseThrow(() -> new NotHere("There is no such line here."));
    revisions.bump(viewer, row.aircraftId);
    LineDeferral before = repository.ofForm(LineDeferral.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    WorkOrderSheet order = book.order(viewer, row.orderEntryId);
    WorkOrders.notOver(order);
    OrderLine line = open(order, row);
    Instant now = clock.instant();
    check(asked, viewer.dateOf(now));
    LicenceLine licence = entitled.licence(viewer, licenceNumber, now, line.line());
    LineDeferral filed = new LineDeferral();
    filed.afterVoided = rows.lastRevoking(LineDeferral.class, "lineEntryId", row.entryId);
    filed.aircraftId = row.aircraftId;
    filed.lineEntryId = row.entryId;
    filed.why = asked.why().strip();
    filed.authority = asked.authority().strip();
    filed.reference = asked.reference().strip();
    filed.lastDay = asked.lastDay();
    filed.licenceNumber = licence.number();
    filed.licenceKind = licence.kind();
    filed.happened(now, viewer.dateOf(now));
    filed.fromForm(formKey);
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("work-order", order.order().no());
    shown.put("line", line.line().ordinal());
    shown.put("asked", line.line().title());
    shown.put("why", filed.why);
    shown.put("authority", filed.authority);
    shown.put("reference", filed.reference);
    shown.put("last-day", filed.lastDay.toString());
    signatures.file(
        viewer,
        proof,
        Signer.engineer(licenceNumber),
        List.of(Signing.of(filed, Statements.LEFT_OPEN, shown)));
    return filed.id();
  }

  /** What closed orders left open on aircraft and nobody has done since, in two statements. */
  @Reading
  public Map<UUID, List<Standing>> standing(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Standing>> standing = new HashMap<>();
    List<LineDeferral> rows = closed.putOff(aircraftIds, view);
    Map<UUID, LineSheet> lines = new HashMap<>();
    repository
        .linesOf(rows.stream().map(row -> row.lineEntryId).toList())
        .forEach(line -> lines.put(line.entryId, LineSheet.of(line)));
    for (LineDeferral row : rows) {
      standing
          .computeIfAbsent(row.aircraftId, id -> new ArrayList<>())
          .add(new Standing(LeftOpen.of(row), lines.get(row.lineEntryId)));
    }
    return standing;
  }

  private static OrderLine open(WorkOrderSheet order, WorkLine row) {
    OrderLine line = order.line(row.entryId).orElse(null);
    if (line == null || !line.line().rowId().equals(row.id())) {
      throw new Stale("This line was changed since you opened this form.");
    }
    if (line.isSigned() || line.leftOpen() != null) {
      throw new Stale("Line " + row.ordinal + " is no longer open. Nothing was filed.");
    }
    if (row.defectEntryId != null) {
      throw new Refusal("", "A defect is deferred on its own page, under the rules for that.");
    }
    if (row.parentLine != null || row.inspection) {
      throw new Refusal("", "An inspection is not left half done: sign it, or take it off.");
    }
    return line;
  }

  private static void check(Leaving asked, LocalDate today) {
    List<Refusal.Reason> faults = new ArrayList<>();
    need(faults, "why", "Why", asked.why(), 1_000);
    need(faults, "authority", "Authority", asked.authority(), 120);
    need(faults, "reference", "Reference", asked.reference(), 200);
    if (asked.lastDay() == null || asked.lastDay().isBefore(today)) {
      faults.add(new Refusal.Reason("last-day", "Last day must be today or later."));
    }
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private static void need(
      List<Refusal.Reason> faults, String field, String label, String value, int most) {
    if (value == null || value.isBlank() || value.length() > most) {
      faults.add(
          new Refusal.Reason(field, label + " must be said, in at most " + most + " characters."));
    }
  }
}
