package trestle.defects;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.UUID;
import java.util.function.Supplier;
import trestle.fleet.Revisions;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.people.Proof;
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

  /**
   * Certifies the inspection that an event asks for; the event then holds the aircraft no longer.
   *
   * @throws Refusal without what was found, its data, or a licence good that day
   * @throws Stale when somebody has certified it already, or the event was taken away
   */
  @Filing
  public UUID certify(Viewer viewer, Proof proof, UUID entryId, CertifiedWork work, UUID formKey) {
    EventSheet event = locked(viewer, entryId);
    EventInspection row = row(viewer, event, work);
    return once(
        row,
        formKey,
        () -> {
          row.afterVoided = stillOpen(event);
          return sign(viewer, proof, event, row, Certifying.INSPECTED, row.licenceNumber);
        });
  }

  /** Says what an inspection should have said; the original is kept and shown. */
  @Filing
  public UUID correct(
      Viewer viewer, Proof proof, UUID rowId, CertifiedWork work, String reason, UUID formKey) {
    EventInspection original = one(rowId);
    EventSheet event = locked(viewer, original.eventEntryId);
    Certifying.reasonNeeded(reason);
    EventInspection row = row(viewer, event, work);
    row.correct(rowId, reason.strip());
    return once(
        row,
        formKey,
        () -> {
          certifying.stillStands(original);
          return sign(viewer, proof, event, row, Certifying.INSPECTED, row.licenceNumber);
        });
  }

  /** Takes an inspection away: its event holds the aircraft again. */
  @Filing
  public UUID takeAway(Viewer viewer, Proof proof, UUID rowId, TakingAway asked, UUID formKey) {
    EventInspection original = one(rowId);
    EventSheet event = locked(viewer, original.eventEntryId);
    Certifying.reasonNeeded(asked.reason());
    EventInspection row = new EventInspection();
    row.eventEntryId = original.eventEntryId;
    row.found = original.found;
    row.takesAway(original, asked.reason());
    return once(
        row,
        formKey,
        () -> {
          certifying.stillStands(original);
          return sign(viewer, proof, event, row, Certifying.TAKEN_AWAY, asked.licenceNumber());
        });
  }

  private UUID once(EventInspection row, UUID formKey, Supplier<UUID> filing) {
    return certifying.filedBefore(row, EventInspection.class, formKey).orElseGet(filing);
  }

  private UUID sign(
      Viewer viewer,
      Proof proof,
      EventSheet event,
      EventInspection row,
      String statement,
      String licence) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("event", event.kindName() + ", " + event.on());
    shown.put("inspection", event.inspection());
    return certifying.sign(viewer, proof, row, statement, licence, shown);
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

  private UUID stillOpen(EventSheet event) {
    if (event.voided()) {
      throw new Stale("This event was taken away since you opened this form.");
    }
    return Certifying.afterVoided(
        repository.inspections(List.of(event.entryId()), View.EVERYTHING),
        "This inspection was certified since you opened this form.");
  }

  /** The event as it stands, its aircraft locked until the commit. */
  private EventSheet locked(Viewer viewer, UUID entryId) {
    UUID aircraft = events.entry(viewer, entryId).current().aircraftId();
    revisions.bump(viewer, aircraft);
    return events.entry(viewer, entryId).current();
  }

  private EventInspection one(UUID rowId) {
    return repository
        .row(EventInspection.class, rowId)
        .orElseThrow(() -> new NotHere("There is no such inspection here."));
  }
}
