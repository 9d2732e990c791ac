package trestle.defects;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Certifying the inspections that abnormal events ask for. A correction keeps the original; one
 * that should not have been certified is taken away, and its event holds the aircraft again.
 */
@ApplicationScoped
public class EventInspections {
  @Inject DefectRepository repository;
  @Inject AbnormalEvents events;
  @Inject Certifying certifying;
  @Inject Revisions revisions;
  @Inject Signatures signatures;
  @Inject Fleet fleet;

  /**
   * Certifies the inspection that an event asks for; the event then holds the aircraft no longer.
   *
   * @throws Refusal without what was found, its data, or a licence good that day
   * @throws Stale when somebody has certified it already
   */
  @Filing
  public UUID certify(Viewer viewer, Proof proof, UUID entryId, CertifiedWork work, UUID formKey) {
    EventEntry entry = events.entry(viewer, entryId);
    EventSheet event = entry.current();
    revisions.bump(viewer, event.aircraftId());
    EventInspection row = row(viewer, event, work);
    row.fromForm(formKey);
    Optional<EventInspection> before = repository.ofForm(EventInspection.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), row);
    }
    if (event.voided()) {
      throw new Stale("This event was taken away since you opened this form.");
    }
    row.afterVoided = stillOpen(event);
    return sign(viewer, proof, event, row, Certifying.INSPECTED, row.licenceNumber);
  }

  /** Says what an inspection should have said; the original is kept and shown. */
  @Filing
  public UUID correct(
      Viewer viewer, Proof proof, UUID rowId, CertifiedWork work, String reason, UUID formKey) {
    EventInspection original = one(rowId);
    EventSheet event = events.entry(viewer, original.eventEntryId).current();
    revisions.bump(viewer, event.aircraftId());
    Certifying.reasonNeeded(reason);
    EventInspection row = row(viewer, event, work);
    row.correct(rowId, reason.strip());
    row.fromForm(formKey);
    Optional<EventInspection> before = repository.ofForm(EventInspection.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), row);
    }
    stillStands(original);
    return sign(viewer, proof, event, row, Certifying.INSPECTED, row.licenceNumber);
  }

  /** Takes an inspection away: its event holds the aircraft again. */
  @Filing
  public UUID takeAway(Viewer viewer, Proof proof, UUID rowId, TakingAway asked, UUID formKey) {
    EventInspection original = one(rowId);
    EventSheet event = events.entry(viewer, original.eventEntryId).current();
    revisions.bump(viewer, event.aircraftId());
    Optional<EventInspection> before = repository.ofForm(EventInspection.class, formKey);
    if (before.isPresent()) {
      return before.get().id();
    }
    Certifying.reasonNeeded(asked.reason());
    stillStands(original);
    EventInspection row = original.takenAway();
    row.correct(rowId, asked.reason());
    row.fromForm(formKey);
    return sign(viewer, proof, event, row, Certifying.TAKEN_AWAY, asked.licenceNumber());
  }

  private UUID sign(
      Viewer viewer,
      Proof proof,
      EventSheet event,
      EventInspection row,
      String statement,
      String licence) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("aircraft", fleet.sheet(viewer, row.aircraftId, View.EVERYTHING).registration());
    shown.put("event", event.kindName() + ", " + event.on());
    shown.put("inspection", event.inspection());
    shown.put("found", row.found);
    shown.put("data-reference", row.dataReference);
    shown.put("on", row.happenedOn().toString());
    if (row.isVoid()) {
      shown.put("reason", row.reason());
    }
    signatures.file(
        viewer, proof, Signer.engineer(licence), List.of(Signing.of(row, statement, shown)));
    return row.id();
  }

  private EventInspection row(Viewer viewer, EventSheet event, CertifiedWork work) {
    Members.LicenceLine licence =
        certifying.licence(
            viewer, work, new Certifying.Asked("found", "What was found", event.on(), "the event"));
    EventInspection row = new EventInspection();
    row.aircraftId = event.aircraftId();
    row.eventEntryId = event.entryId();
    row.found = work.words();
    row.dataReference = work.dataReference();
    row.licenceNumber = licence.number();
    row.licenceKind = licence.kind();
    row.happened(work.at(), viewer.dateOf(work.at()));
    return row;
  }

  /** The row after which it is certified anew, or null; refused while an inspection stands. */
  private UUID stillOpen(EventSheet event) {
    List<EventInspection> rows = repository.inspections(List.of(event.entryId()), View.EVERYTHING);
    EventInspection last = rows.isEmpty() ? null : rows.get(rows.size() - 1);
    if (last != null && !last.isVoid()) {
      throw new Stale("This inspection was certified since you opened this form.");
    }
    return last == null ? null : last.id();
  }

  private void stillStands(EventInspection original) {
    if (original.isVoid() || repository.isCorrected(EventInspection.class, original.id())) {
      throw new Stale("Someone has corrected this inspection since you opened this form.");
    }
  }

  private static UUID again(EventInspection before, EventInspection now) {
    boolean same =
        before.eventEntryId.equals(now.eventEntryId)
            && before.found.equals(now.found)
            && before.dataReference.equals(now.dataReference)
            && before.happenedOn().equals(now.happenedOn());
    if (!same) {
      throw new Stale("This form has certified an inspection already, with other content.");
    }
    return before.id();
  }

  private EventInspection one(UUID rowId) {
    return repository
        .row(EventInspection.class, rowId)
        .orElseThrow(() -> new NotHere("There is no such inspection here."));
  }
}
