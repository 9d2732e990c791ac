package trestle.defects;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Components;
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
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Reporting defects, putting reports right, and closing them by what was done. A defect keeps its
 * number and the moment it was found for ever, and can't be declared void: it is rectified.
 */
@ApplicationScoped
public class Defects {
  private static final String NUMBERS = "defect";

  @Inject DefectRepository repository;
  @Inject Photos photos;
  @Inject Components components;
  @Inject Members members;
  @Inject Revisions revisions;
  @Inject Numbers numbers;
  @Inject Signatures signatures;
  @Inject Fleet fleet;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** What was filed. */
  public record Reported(UUID entryId, UUID id, long number, long ledgerSeq) {}

  /**
   * What an engineer did.
   *
   * @param dataReference the approved data it was done to
   * @param licenceNumber of the engineer, good on that day
   * @param at when it was done
   */
  public record NewRectification(
      String done, String dataReference, String licenceNumber, Instant at) {
    public NewRectification {
      done = done == null ? "" : done.strip();
      dataReference = dataReference == null ? "" : dataReference.strip();
      licenceNumber = licenceNumber == null ? "" : licenceNumber.strip();
    }
  }

  /**
   * Files a defect. "Must not fly" holds the aircraft from here on.
   *
   * @param flightEntryId the journey log entry it came with, or null
   * @param formKey made when the form was opened: the same form with the same content is filed once
   *     and answers the same; null when there was no form
   * @throws Refusal when the report is wrong in itself
   * @throws Stale when this form has filed something else already
   */
  @Filing
  public Reported report(
      Viewer viewer,
      UUID aircraftId,
      DefectDraft draft,
      List<PhotoDraft> pictures,
      UUID flightEntryId,
      UUID formKey) {
    refuse(draft.faults(clock.instant()));
    revisions.bump(viewer, aircraftId);
    List<String> kept = photos.keep(viewer, pictures);
    Optional<Defect> before = repository.ofForm(Defect.class, formKey);
    Defect row =
        Defect.of(aircraftId, draft, kept, flightEntryId, viewer.dateOf(draft.discoveredAt()));
    if (before.isPresent()) {
      return again(before.get(), row);
    }
    knowsComponent(viewer, draft);
    row.chapterFromWords();
    row.fromForm(formKey);
    row.number = numbers.next(viewer.operatorId(), NUMBERS);
    return filed(viewer, row);
  }

  /**
   * Says what a report should have said. What was found when, its number and its photos stay, and
   * "must not fly" is not taken back here: that is for an engineer to decide.
   *
   * @param rowId the row to replace; refused as stale when it has been replaced already
   */
  @Filing
  public Reported correct(
      Viewer viewer,
      UUID rowId,
      DefectDraft draft,
      List<PhotoDraft> more,
      String reason,
      UUID formKey) {
    Defect original =
        repository.row(Defect.class, rowId).orElseThrow(() -> new NotHere("No such defect here."));
    revisions.bump(viewer, original.aircraftId);
    reasonNeeded(reason);
    refuse(draft.faults(clock.instant()));
    Defect row = corrected(viewer, original, draft, more, reason);
    row.fromForm(formKey);
    Optional<Defect> before = repository.ofForm(Defect.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), row);
    }
    if (repository.isCorrected(Defect.class, rowId)) {
      throw new Stale("Someone has corrected this defect since you opened this form.");
    }
    if (original.judgement.equals(Judgement.MUST_NOT_FLY.word())
        && draft.judgement() == Judgement.CAN_FLY) {
      throw new Refusal(
          "judgement",
          "“Must not fly” is not taken back by a correction: an engineer decides what it means.");
    }
    knowsComponent(viewer, draft);
    return filed(viewer, row);
  }

  /**
   * Closes a defect by what an engineer did about it, and signs for it.
   *
   * @throws Refusal without what was done, its data, or a licence good that day
   * @throws Stale when somebody has closed it already
   */
  @Filing
  public UUID rectify(
      Viewer viewer, Proof proof, UUID entryId, NewRectification asked, UUID formKey) {
    DefectSheet defect = current(entryId);
    revisions.bump(viewer, defect.aircraftId());
    Optional<Rectification> before = repository.ofForm(Rectification.class, formKey);
    Rectification row = rectification(viewer, defect, asked);
    row.fromForm(formKey);
    if (before.isPresent()) {
      return againRectified(before.get(), row);
    }
    if (!repository.rectifications(List.of(entryId), View.EVERYTHING).isEmpty()) {
      throw new Stale(
          "Defect "
              + defect.no()
              + " was rectified since you opened this form. Nothing was filed.");
    }
    sign(viewer, proof, defect, row);
    return row.id();
  }

  /**
   * A rectification as old papers tell it.
   *
   * @param transcribedFrom which paper, and where on it
   * @param signedBy whose signature it bears
   */
  public record OldRectification(
      String done, String dataReference, String transcribedFrom, String signedBy, Instant at) {}

  /** Closes a defect by what old papers say was done: copied, not certified. */
  @Filing
  public UUID transcribe(Viewer viewer, UUID entryId, OldRectification old) {
    DefectSheet defect = current(entryId);
    revisions.bump(viewer, defect.aircraftId());
    if (old.done().isBlank() || old.transcribedFrom().isBlank()) {
      throw new Refusal("transcribed-from", "Say what was done, and on which paper it stands.");
    }
    if (!repository.rectifications(List.of(entryId), View.EVERYTHING).isEmpty()) {
      throw new Stale("Defect " + defect.no() + " was rectified already. Nothing was filed.");
    }
    Rectification row = new Rectification();
    row.aircraftId = defect.aircraftId();
    row.defectEntryId = entryId;
    row.done = old.done().strip();
    row.dataReference = old.dataReference();
    row.licenceNumber = "";
    row.licenceKind = "";
    row.transcribedFrom = old.transcribedFrom().strip();
    row.signedBy = old.signedBy();
    row.happened(old.at(), viewer.dateOf(old.at()));
    ledger.file(act(viewer), row);
    return row.id();
  }

  /** Says what a rectification should have said; the original is kept and shown. */
  @Filing
  public UUID correctRectification(
      Viewer viewer, Proof proof, UUID rowId, NewRectification asked, String reason, UUID formKey) {
    Rectification original =
        repository
            .row(Rectification.class, rowId)
            .orElseThrow(() -> new NotHere("There is no such rectification here."));
    DefectSheet defect = current(original.defectEntryId);
    revisions.bump(viewer, defect.aircraftId());
    reasonNeeded(reason);
    Optional<Rectification> before = repository.ofForm(Rectification.class, formKey);
    Rectification row = rectification(viewer, defect, asked);
    row.correct(rowId, reason.strip());
    row.fromForm(formKey);
    if (before.isPresent()) {
      return againRectified(before.get(), row);
    }
    if (repository.isCorrected(Rectification.class, rowId)) {
      throw new Stale("Someone has corrected this rectification since you opened this form.");
    }
    sign(viewer, proof, defect, row);
    return row.id();
  }

  private void sign(Viewer viewer, Proof proof, DefectSheet defect, Rectification row) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("aircraft", fleet.sheet(viewer, row.aircraftId, View.EVERYTHING).registration());
    shown.put("defect", defect.no());
    shown.put("words", defect.defect().words());
    shown.put("done", row.done);
    shown.put("data-reference", row.dataReference);
    shown.put("on", row.happenedOn().toString());
    signatures.file(
        viewer,
        proof,
        Signer.engineer(row.licenceNumber),
        List.of(Signing.of(row, Certifying.RECTIFIED, shown)));
  }

  private Defect corrected(
      Viewer viewer, Defect original, DefectDraft draft, List<PhotoDraft> more, String reason) {
    Set<String> pictures = new LinkedHashSet<>(List.of(original.photos));
    pictures.addAll(photos.keep(viewer, more));
    Defect row =
        Defect.of(
            original.aircraftId,
            draft,
            List.copyOf(pictures),
            original.flightEntryId,
            original.happenedOn());
    row.happened(original.happenedAt(), original.happenedOn());
    row.entryId = original.entryId;
    row.number = original.number;
    row.correct(original.id(), reason.strip());
    return row;
  }

  /** The same form again: with the same content, the same answer. */
  private static Reported again(Defect before, Defect now) {
    boolean same =
        before.aircraftId.equals(now.aircraftId)
            && before.happenedOn().equals(now.happenedOn())
            && before.draft().foundAt(now.happenedAt()).equals(now.draft())
            && List.of(before.photos).equals(List.of(now.photos))
            && Objects.equals(before.flightEntryId, now.flightEntryId)
            && Objects.equals(before.corrects(), now.corrects());
    if (!same) {
      throw new Stale(
          "This form has filed a defect already, with other content. Open a new form, or correct"
              + " what it filed.");
    }
    return reported(before);
  }

  private static UUID againRectified(Rectification before, Rectification now) {
    boolean same =
        before.defectEntryId.equals(now.defectEntryId)
            && before.done.equals(now.done)
            && before.dataReference.equals(now.dataReference)
            && before.licenceNumber.equals(now.licenceNumber)
            && before.happenedOn().equals(now.happenedOn());
    if (!same) {
      throw new Stale("This form has filed a rectification already, with other content.");
    }
    return before.id();
  }

  private Rectification rectification(Viewer viewer, DefectSheet defect, NewRectification asked) {
    if (asked.done().isEmpty() || asked.done().length() > 4_000) {
      throw new Refusal("done", "What was done must be said, in at most 4,000 characters.");
    }
    if (asked.dataReference().isEmpty() || asked.dataReference().length() > 200) {
      throw new Refusal(
          "data-reference", "Data must name the approved data it was done to, in 200 characters.");
    }
    if (asked.at().isAfter(clock.instant())) {
      throw new Refusal("on", "The day it was done must not be in the future.");
    }
    if (viewer.dateOf(asked.at()).isBefore(defect.foundOn())) {
      throw new Refusal("on", "The day it was done must not be before the defect was found.");
    }
    Members.LicenceLine licence =
        Certifying.licence(members, viewer, asked.licenceNumber(), viewer.dateOf(asked.at()));
    Rectification row = new Rectification();
    row.aircraftId = defect.aircraftId();
    row.defectEntryId = defect.entryId();
    row.done = asked.done();
    row.dataReference = asked.dataReference();
    row.licenceNumber = licence.number();
    row.licenceKind = licence.kind();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    return row;
  }

  private DefectSheet current(UUID entryId) {
    List<Defect> rows = repository.entries(List.of(entryId), View.EVERYTHING);
    if (rows.isEmpty()) {
      throw new NotHere("There is no such defect here.");
    }
    return DefectSheet.of(rows.get(rows.size() - 1));
  }

  private void knowsComponent(Viewer viewer, DefectDraft draft) {
    if (draft.componentId() != null
        && !components
            .histories(viewer, List.of(draft.componentId()), View.EVERYTHING)
            .containsKey(draft.componentId())) {
      throw new Refusal("component", "Part must be one of the choices shown.");
    }
  }

  private Reported filed(Viewer viewer, Defect row) {
    ledger.file(act(viewer), row);
    return reported(row);
  }

  private static Reported reported(Defect row) {
    return new Reported(row.entryId, row.id(), row.number, row.ledgerSeq());
  }

  private static void reasonNeeded(String reason) {
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it changes.");
    }
  }

  private static void refuse(List<Refusal.Reason> faults) {
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
