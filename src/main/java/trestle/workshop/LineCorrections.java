package trestle.workshop;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.people.Members.LicenceLine;
import trestle.people.Proof;
import trestle.programme.Compliances;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** Putting signed work right, with a signature of its own; or taking it away. */
@ApplicationScoped
public class LineCorrections {
  @Inject WorkRepository repository;
  @Inject Presses presses;
  @Inject Entitled entitled;
  @Inject Compliances compliances;
  @Inject Revisions revisions;
  @Inject Signatures signatures;
  @Inject InstantSource clock;

  /**
   * Says what a signed record should have said, with a signature of its own; the original is kept
   * and shown. Words and data are put right when the order is over too. A second person inspects it
   * again where one had to.
   */
  @Filing
  public UUID correct(
      Viewer viewer,
      Proof proof,
      UUID workId,
      NewWork asked,
      String licenceNumber,
      String reason,
      UUID formKey) {
    LineWork original = changeable(viewer, workId, reason);
    LineWork before = repository.ofForm(LineWork.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    WorkOrderSheet order = presses.standing(viewer, original);
    OrderLine line = order.line(original.lineEntryId).orElseThrow();
    if (asked.finding() != null || !asked.outcome().word().equals(original.outcome)) {
      throw new Refusal(
          "outcome", "What came of it stays: take the record away and sign the line anew.");
    }
    if (order.state().isOver() && !asked.at().equals(original.happenedAt())) {
      throw new Refusal(
          "on",
          "Its order is over, and what that closed counts from the day of the work: it stays.");
    }
    if (original.complianceId != null && !asked.at().equals(original.happenedAt())) {
      throw new Refusal(
          "on", "An inspection counts from its day: take the record away and sign it anew.");
    }
    Presses.Press press = presses.of(viewer, order, licenceNumber, List.of(asked), List.of(line));
    LineWork row = Presses.row(press, line, asked);
    row.foundDefect = original.foundDefect;
    row.complianceId = original.complianceId;
    row.correct(workId, reason.strip());
    row.fromForm(formKey);
    signatures.file(
        viewer,
        proof,
        Signer.engineer(licenceNumber),
        List.of(
            Signing.of(
                row, Statements.WORKED, Presses.shown(press, line, row).put("reason", reason))));
    return row.id();
  }

  /** Takes a signed record away that should not have been: its line is open again. */
  @Filing
  public UUID takeAway(
      Viewer viewer, Proof proof, UUID workId, String licenceNumber, String reason, UUID formKey) {
    LineWork original = changeable(viewer, workId, reason);
    LineWork before = repository.ofForm(LineWork.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    WorkOrderSheet order = presses.standing(viewer, original);
    WorkOrders.notOver(order);
    OrderLine line = order.line(original.lineEntryId).orElseThrow();
    if (!order.findingsOf(original.lineEntryId).isEmpty()) {
      throw new Refusal("", "A finding grew out of this record: take that line off first.");
    }
    LicenceLine licence = entitled.licence(viewer, licenceNumber, clock.instant());
    LineWork row = copy(original);
    row.workedBy = viewer.personId();
    row.workerName = viewer.personName();
    row.licenceNumber = licence.number();
    row.licenceKind = licence.kind();
    row.voided = true;
    row.happened(original.happenedAt(), original.happenedOn());
    row.correct(workId, reason.strip());
    row.fromForm(formKey);
    if (original.complianceId != null) {
      compliances.voided(viewer, original.complianceId, reason.strip(), null);
    }
    ObjectNode shown = Presses.about(order, line);
    shown.put("words", original.words);
    shown.put("reason", reason.strip());
    signatures.file(
        viewer,
        proof,
        Signer.engineer(licenceNumber),
        List.of(Signing.of(row, Statements.TAKEN_AWAY, shown)));
    return row.id();
  }

  private static LineWork copy(LineWork original) {
    LineWork row = new LineWork();
    row.aircraftId = original.aircraftId;
    row.lineEntryId = original.lineEntryId;
    row.outcome = original.outcome;
    row.words = original.words;
    row.dataReference = original.dataReference;
    row.dataRevision = original.dataRevision;
    row.times = original.times;
    row.performedBy = original.performedBy;
    row.foundDefect = original.foundDefect;
    row.complianceId = original.complianceId;
    row.bookId = original.bookId;
    return row;
  }

  private LineWork changeable(Viewer viewer, UUID workId, String reason) {
    LineWork original = presses.work(workId);
    revisions.bump(viewer, original.aircraftId);
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      throw new Refusal("reason", "Reason is needed, in at most 500 characters.");
    }
    return original;
  }
}
