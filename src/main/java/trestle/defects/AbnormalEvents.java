package trestle.defects;

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
import java.util.Optional;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.Numbers;
import trestle.ledger.View;
import trestle.people.Members;
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

/** Abnormal events: each holds its aircraft until the inspection it asks for is certified. */
@ApplicationScoped
public class AbnormalEvents {
  private static final String NUMBERS = "abnormal-event";

  @Inject DefectRepository repository;
  @Inject EventKinds kinds;
  @Inject Photos photos;
  @Inject Members members;
  @Inject Revisions revisions;
  @Inject Numbers numbers;
  @Inject Signatures signatures;
  @Inject Fleet fleet;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * An event as reported.
   *
   * @param kindCode one of the operator's list
   * @param words what happened
   */
  public record NewEvent(String kindCode, String words, Instant at) {
    public NewEvent {
      words = words == null ? "" : words.strip();
    }
  }

  /** The inspection, certified. */
  public record NewInspection(
      String found, String dataReference, String licenceNumber, Instant at) {
    public NewInspection {
      found = found == null ? "" : found.strip();
      dataReference = dataReference == null ? "" : dataReference.strip();
      licenceNumber = licenceNumber == null ? "" : licenceNumber.strip();
    }
  }

  /** An inspection as filed. */
  public record InspectionSheet(
      UUID id,
      UUID eventEntryId,
      String found,
      String dataReference,
      String licenceNumber,
      String licenceKind,
      LocalDate on,
      long ledgerSeq,
      Instant recordedAt,
      UUID recordedBy) {}

  /** An event with its rows as filed, and its inspection or null. */
  public record Entry(List<EventSheet> rows, InspectionSheet inspection) {
    public EventSheet current() {
      return rows.get(rows.size() - 1);
    }

    public boolean isOpen() {
      return inspection == null;
    }
  }

  /** The events of each aircraft that wait for their inspection in a view. */
  @Reading
  public Map<UUID, List<EventSheet>> open(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<EventSheet>> open = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      for (AbnormalEvent row : repository.openEvents(aircraftIds, view)) {
        open.computeIfAbsent(row.aircraftId, id -> new ArrayList<>()).add(EventSheet.of(row));
      }
    }
    return open;
  }

  /** All events of an aircraft, the latest first. */
  @Reading
  public List<Entry> of(Viewer viewer, UUID aircraftId, View view) {
    List<AbnormalEvent> rows = repository.events(aircraftId, view);
    Map<UUID, InspectionSheet> inspections =
        inspections(rows.stream().map(row -> row.entryId).toList(), view);
    return rows.stream()
        .map(row -> new Entry(List.of(EventSheet.of(row)), inspections.get(row.entryId)))
        .toList();
  }

  /**
   * @throws NotHere when the operator has no such event
   */
  @Reading
  public Entry entry(Viewer viewer, UUID id) {
    AbnormalEvent row =
        repository
            .row(AbnormalEvent.class, id)
            .orElseThrow(() -> new NotHere("There is no such event here."));
    return new Entry(
        repository.eventRows(row.entryId).stream().map(EventSheet::of).toList(),
        inspections(List.of(row.entryId), View.EVERYTHING).get(row.entryId));
  }

  /** Files an event: it holds the aircraft from here on. The same form is filed once. */
  @Filing
  public UUID report(
      Viewer viewer,
      UUID aircraftId,
      NewEvent asked,
      List<PhotoDraft> pictures,
      UUID flightEntryId,
      UUID formKey) {
    revisions.bump(viewer, aircraftId);
    EventKind kind = kinds.find(viewer, asked.kindCode());
    refuseWords(asked);
    Optional<AbnormalEvent> before = repository.ofForm(AbnormalEvent.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), aircraftId, asked);
    }
    AbnormalEvent row = new AbnormalEvent();
    row.aircraftId = aircraftId;
    row.entryId = row.id();
    row.kindCode = kind.code();
    row.kindName = kind.name();
    row.inspection = kind.inspection();
    row.words = asked.words();
    row.flightEntryId = flightEntryId;
    row.photos = photos.keep(viewer, pictures).toArray(String[]::new);
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(formKey);
    row.number = numbers.next(viewer.operatorId(), NUMBERS);
    ledger.file(act(viewer), row);
    return row.entryId;
  }

  /**
   * Certifies the inspection that an event asks for; the event then holds the aircraft no longer.
   *
   * @throws Stale when somebody has certified it already
   */
  @Filing
  public UUID certify(Viewer viewer, Proof proof, UUID entryId, NewInspection asked, UUID formKey) {
    Entry entry = entry(viewer, entryId);
    EventSheet event = entry.current();
    revisions.bump(viewer, event.aircraftId());
    EventInspection row = inspection(viewer, event, asked);
    row.fromForm(formKey);
    Optional<EventInspection> before = repository.ofForm(EventInspection.class, formKey);
    if (before.isPresent() && before.get().eventEntryId.equals(event.entryId())) {
      return before.get().id();
    }
    if (!repository.inspections(List.of(event.entryId()), View.EVERYTHING).isEmpty()) {
      throw new Stale("This inspection was certified since you opened this form.");
    }
    sign(viewer, proof, event, row);
    return row.id();
  }

  private void sign(Viewer viewer, Proof proof, EventSheet event, EventInspection row) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("aircraft", fleet.sheet(viewer, row.aircraftId, View.EVERYTHING).registration());
    shown.put("event", event.kindName() + ", " + event.on());
    shown.put("inspection", event.inspection());
    shown.put("found", row.found);
    shown.put("data-reference", row.dataReference);
    shown.put("on", row.happenedOn().toString());
    signatures.file(
        viewer,
        proof,
        Signer.engineer(row.licenceNumber),
        List.of(Signing.of(row, Certifying.INSPECTED, shown)));
  }

  private void refuseWords(NewEvent asked) {
    if (asked.words().isEmpty() || asked.words().length() > DefectDraft.MOST_WORDS) {
      throw new Refusal("words", "What happened must be said, in at most 2,000 characters.");
    }
    if (asked.at().isAfter(clock.instant())) {
      throw new Refusal("on", "The day it happened must not be in the future.");
    }
  }

  private static UUID again(AbnormalEvent before, UUID aircraftId, NewEvent asked) {
    boolean same =
        before.aircraftId.equals(aircraftId)
            && before.kindCode.equals(asked.kindCode())
            && before.words.equals(asked.words());
    if (!same) {
      throw new Stale("This form has filed an event already, with other content.");
    }
    return before.entryId;
  }

  private EventInspection inspection(Viewer viewer, EventSheet event, NewInspection asked) {
    if (asked.found().isEmpty() || asked.found().length() > 4_000) {
      throw new Refusal("found", "What was found must be said, in at most 4,000 characters.");
    }
    if (asked.dataReference().isEmpty() || asked.dataReference().length() > 200) {
      throw new Refusal(
          "data-reference", "Data must name the approved data it was done to, in 200 characters.");
    }
    if (asked.at().isAfter(clock.instant())) {
      throw new Refusal("on", "The day it was done must not be in the future.");
    }
    if (viewer.dateOf(asked.at()).isBefore(event.on())) {
      throw new Refusal("on", "The day it was done must not be before the event.");
    }
    Members.LicenceLine licence =
        Certifying.licence(members, viewer, asked.licenceNumber(), viewer.dateOf(asked.at()));
    EventInspection row = new EventInspection();
    row.aircraftId = event.aircraftId();
    row.eventEntryId = event.entryId();
    row.found = asked.found();
    row.dataReference = asked.dataReference();
    row.licenceNumber = licence.number();
    row.licenceKind = licence.kind();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    return row;
  }

  private Map<UUID, InspectionSheet> inspections(List<UUID> entryIds, View view) {
    Map<UUID, InspectionSheet> sheets = new HashMap<>();
    if (!entryIds.isEmpty()) {
      repository
          .inspections(entryIds, view)
          .forEach(row -> sheets.put(row.eventEntryId, sheet(row)));
    }
    return sheets;
  }

  private static InspectionSheet sheet(EventInspection row) {
    return new InspectionSheet(
        row.id(),
        row.eventEntryId,
        row.found,
        row.dataReference,
        row.licenceNumber,
        row.licenceKind,
        row.happenedOn(),
        row.ledgerSeq(),
        row.recordedAt(),
        row.recordedBy());
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
