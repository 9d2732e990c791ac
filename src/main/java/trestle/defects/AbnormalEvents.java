package trestle.defects;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.Numbers;
import trestle.ledger.View;
import trestle.people.Proof;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Abnormal events: each holds its aircraft until the inspection it asks for is certified ({@link
 * EventInspections}). A report may be corrected; only an engineer takes an event away, and signs.
 */
@ApplicationScoped
public class AbnormalEvents {
  private static final String NUMBERS = "abnormal-event";

  @Inject DefectRepository repository;
  @Inject EventKinds kinds;
  @Inject Photos photos;
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
   * @param timed whether its moment was stated, and not only its day
   */
  public record NewEvent(String kindCode, String words, Instant at, boolean timed) {
    public NewEvent {
      words = words == null ? "" : words.strip();
    }

    public NewEvent(String kindCode, String words, Instant at) {
      this(kindCode, words, at, true);
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
  public List<EventEntry> of(Viewer viewer, UUID aircraftId, View view) {
    List<AbnormalEvent> rows = repository.events(aircraftId, view);
    Map<UUID, List<InspectionSheet>> inspections =
        inspections(rows.stream().map(row -> row.entryId).toList(), view);
    return rows.stream()
        .map(
            row ->
                new EventEntry(
                    List.of(EventSheet.of(row)), inspections.getOrDefault(row.entryId, List.of())))
        .toList();
  }

  /**
   * The event of which a row is part, whether that row still counts or not.
   *
   * @throws NotHere when the operator has no such event
   */
  @Reading
  public EventEntry entry(Viewer viewer, UUID rowId) {
    UUID entryId = one(rowId).entryId;
    return new EventEntry(
        repository.eventRows(entryId).stream().map(EventSheet::of).toList(),
        inspections(List.of(entryId), View.EVERYTHING).getOrDefault(entryId, List.of()));
  }

  /** The event of an aircraft whose inspection was done last, if any was. */
  @Reading
  public Optional<EventEntry> lastInspected(Viewer viewer, UUID aircraftId) {
    return repository.lastInspections(aircraftId, View.EVERYTHING, 1).stream()
        .findFirst()
        .map(row -> entry(viewer, row.eventEntryId));
  }

  /**
   * The event that an inspection is of.
   *
   * @throws NotHere when the operator has no such inspection
   */
  @Reading
  public EventEntry inspected(Viewer viewer, UUID inspectionId) {
    return entry(
        viewer,
        repository
            .row(EventInspection.class, inspectionId)
            .orElseThrow(() -> new NotHere("There is no such inspection here."))
            .eventEntryId);
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
    AbnormalEvent row = new AbnormalEvent();
    row.aircraftId = aircraftId;
    row.entryId = row.id();
    row.says(kind, asked.words());
    row.flightEntryId = flightEntryId;
    row.photos = photos.keep(viewer, pictures).toArray(String[]::new);
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    Optional<AbnormalEvent> before = repository.ofForm(AbnormalEvent.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), row, asked);
    }
    row.fromForm(formKey);
    row.number = numbers.next(viewer.operatorId(), NUMBERS);
    ledger.file(act(viewer), row);
    return row.entryId;
  }

  /**
   * Says what a report should have said; the original is kept and shown. Where another event asks
   * for another inspection, an engineer alone says that it was one, and nobody once its inspection
   * is certified; nor can it have happened after that.
   *
   * @param rowId the row to replace; refused as stale when it has been replaced already
   */
  @Filing
  public UUID correct(
      Viewer viewer,
      UUID rowId,
      NewEvent asked,
      List<PhotoDraft> more,
      String reason,
      UUID formKey) {
    AbnormalEvent original = one(rowId);
    revisions.bump(viewer, original.aircraftId);
    Certifying.reasonNeeded(reason);
    refuseWords(asked);
    AbnormalEvent row = original.next(reason.strip());
    Set<String> pictures = new LinkedHashSet<>(List.of(original.photos));
    pictures.addAll(photos.keep(viewer, more));
    row.photos = pictures.toArray(String[]::new);
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    Optional<AbnormalEvent> before = repository.ofForm(AbnormalEvent.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), row, asked);
    }
    stillStands(original);
    boolean otherKind = !original.kindCode.equals(asked.kindCode());
    InspectionSheet inspected = entry(viewer, rowId).inspection();
    if (inspected != null) {
      refuseAgainst(inspected, original, asked, otherKind, viewer);
    }
    if (otherKind) {
      EventKind kind = kinds.find(viewer, asked.kindCode());
      refuseOtherInspection(viewer, original, kind);
      row.says(kind, asked.words());
    }
    row.words = asked.words();
    row.fromForm(formKey);
    ledger.file(act(viewer), row);
    return row.entryId;
  }

  /** Takes an event away that should not have been filed: it holds the aircraft no longer. */
  @Filing
  public UUID takeAway(Viewer viewer, Proof proof, UUID rowId, TakingAway asked, UUID formKey) {
    AbnormalEvent original = one(rowId);
    revisions.bump(viewer, original.aircraftId);
    Optional<AbnormalEvent> before = repository.ofForm(AbnormalEvent.class, formKey);
    if (before.isPresent()) {
      return before.get().entryId;
    }
    Certifying.reasonNeeded(asked.reason());
    stillStands(original);
    AbnormalEvent row = original.next(asked.reason());
    row.voided = true;
    row.fromForm(formKey);
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("aircraft", fleet.sheet(viewer, row.aircraftId, View.EVERYTHING).registration());
    shown.put("event", row.kindName + ", " + row.happenedOn());
    shown.put("words", row.words);
    shown.put("reason", row.reason());
    signatures.file(
        viewer,
        proof,
        Signer.engineer(asked.licenceNumber()),
        List.of(Signing.of(row, Certifying.TAKEN_AWAY, shown)));
    return row.entryId;
  }

  private void refuseWords(NewEvent asked) {
    if (asked.words().isEmpty() || asked.words().length() > DefectDraft.MOST_WORDS) {
      throw new Refusal("words", "What happened must be said, in at most 2,000 characters.");
    }
    if (asked.at().isAfter(clock.instant())) {
      throw new Refusal("on", "The day it happened must not be in the future.");
    }
  }

  /** The inspection that an event holds for is another only by an engineer's word. */
  private static void refuseOtherInspection(Viewer viewer, AbnormalEvent original, EventKind kind) {
    if (!kind.inspection().equals(original.inspection) && !viewer.is(Role.ENGINEER)) {
      throw new Refusal(
          "kind",
          "“"
              + kind.name()
              + "” asks for another inspection than “"
              + original.kindName
              + "”: an engineer corrects what happened, or report the other event as one of its"
              + " own.");
    }
  }

  private static void refuseAgainst(
      InspectionSheet inspected,
      AbnormalEvent original,
      NewEvent asked,
      boolean otherKind,
      Viewer viewer) {
    if (otherKind) {
      throw new Refusal(
          "kind",
          "What happened stays “"
              + original.kindName
              + "”: its inspection is certified. Report the other event as one of its own.");
    }
    if (viewer.dateOf(asked.at()).isAfter(inspected.on())) {
      throw new Refusal(
          "on",
          "The day it happened must not be after the day of its inspection, which is certified for "
              + Shown.date(inspected.on())
              + ".");
    }
  }

  private void stillStands(AbnormalEvent original) {
    if (original.isVoid() || repository.isCorrected(AbnormalEvent.class, original.id())) {
      throw new Stale("Someone has corrected this event since you opened this form.");
    }
  }

  /** The same form again: with the same content, the same answer. */
  private static UUID again(AbnormalEvent before, AbnormalEvent now, NewEvent asked) {
    boolean same =
        before.aircraftId.equals(now.aircraftId)
            && before.kindCode.equals(asked.kindCode())
            && before.words.equals(asked.words())
            && before.happenedOn().equals(now.happenedOn())
            && (!asked.timed() || before.happenedAt().equals(now.happenedAt()))
            && List.of(before.photos).equals(List.of(now.photos))
            && Objects.equals(before.flightEntryId, now.flightEntryId)
            && Objects.equals(before.corrects(), now.corrects());
    if (!same) {
      throw new Stale(
          "This form has filed an event already, with other content. Open a new form, or correct"
              + " what it filed.");
    }
    return before.entryId;
  }

  private Map<UUID, List<InspectionSheet>> inspections(List<UUID> entryIds, View view) {
    Map<UUID, List<InspectionSheet>> sheets = new HashMap<>();
    if (!entryIds.isEmpty()) {
      for (EventInspection row : repository.inspections(entryIds, view)) {
        sheets
            .computeIfAbsent(row.eventEntryId, id -> new ArrayList<>())
            .add(InspectionSheet.of(row));
      }
    }
    return sheets;
  }

  private AbnormalEvent one(UUID rowId) {
    return repository
        .row(AbnormalEvent.class, rowId)
        .orElseThrow(() -> new NotHere("There is no such event here."));
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
