package trestle.defects;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Closing defects by what was done: certified by an engineer, or copied from old papers, which is
 * marked so and is no certification. A correction keeps the original; a rectification that should
 * not have been filed is taken away, and its defect is open again.
 */
@ApplicationScoped
public class Rectifications {
  @Inject DefectRepository repository;
  @Inject Certifying certifying;
  @Inject Revisions revisions;
  @Inject Signatures signatures;
  @Inject Fleet fleet;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * A rectification as old papers tell it.
   *
   * @param transcribedFrom which paper, and where on it
   * @param signedBy whose signature it bears, or ""
   */
  public record Old(
      String done, String dataReference, String transcribedFrom, String signedBy, Instant at) {
    public Old {
      done = done == null ? "" : done.strip();
      dataReference = dataReference == null ? "" : dataReference.strip();
      transcribedFrom = transcribedFrom == null ? "" : transcribedFrom.strip();
      signedBy = signedBy == null ? "" : signedBy.strip();
    }
  }

  /**
   * Closes a defect by what an engineer did about it, and signs for it.
   *
   * @throws Refusal without what was done, its data, or a licence good that day
   * @throws Stale when somebody has closed it already
   */
  @Filing
  public UUID rectify(Viewer viewer, Proof proof, UUID entryId, CertifiedWork work, UUID formKey) {
    DefectSheet defect = current(entryId);
    revisions.bump(viewer, defect.aircraftId());
    Rectification row = certified(viewer, defect, work);
    row.fromForm(formKey);
    Optional<Rectification> before = repository.ofForm(Rectification.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), row);
    }
    row.afterVoided = stillOpen(defect);
    return sign(viewer, proof, defect, row, Certifying.RECTIFIED, row.licenceNumber);
  }

  /** Closes a defect by what old papers say was done: copied, not certified. */
  @Filing
  public UUID transcribe(Viewer viewer, UUID entryId, Old old, UUID formKey) {
    DefectSheet defect = current(entryId);
    revisions.bump(viewer, defect.aircraftId());
    Rectification row = transcribed(viewer, defect, old);
    row.fromForm(formKey);
    Optional<Rectification> before = repository.ofForm(Rectification.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), row);
    }
    row.afterVoided = stillOpen(defect);
    ledger.file(act(viewer), row);
    return row.id();
  }

  /** Says what a certified rectification should have said; the original is kept and shown. */
  @Filing
  public UUID correct(
      Viewer viewer, Proof proof, UUID rowId, CertifiedWork work, String reason, UUID formKey) {
    Rectification original = one(rowId);
    DefectSheet defect = current(original.defectEntryId);
    revisions.bump(viewer, defect.aircraftId());
    Certifying.reasonNeeded(reason);
    if (!original.transcribedFrom.isEmpty()) {
      throw new Refusal("", "What was copied from old papers is put right as a copy of them.");
    }
    Rectification row = certified(viewer, defect, work);
    row.correct(rowId, reason.strip());
    row.fromForm(formKey);
    Optional<Rectification> before = repository.ofForm(Rectification.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), row);
    }
    stillStands(original);
    return sign(viewer, proof, defect, row, Certifying.RECTIFIED, row.licenceNumber);
  }

  /** Says what a copy of old papers should have said; the original is kept and shown. */
  @Filing
  public UUID correct(Viewer viewer, UUID rowId, Old old, String reason, UUID formKey) {
    Rectification original = one(rowId);
    DefectSheet defect = current(original.defectEntryId);
    revisions.bump(viewer, defect.aircraftId());
    Certifying.reasonNeeded(reason);
    if (original.transcribedFrom.isEmpty()) {
      throw new Refusal("", "What an engineer certified is put right by an engineer, who signs.");
    }
    Rectification row = transcribed(viewer, defect, old);
    row.correct(rowId, reason.strip());
    row.fromForm(formKey);
    Optional<Rectification> before = repository.ofForm(Rectification.class, formKey);
    if (before.isPresent()) {
      return again(before.get(), row);
    }
    stillStands(original);
    ledger.file(act(viewer), row);
    return row.id();
  }

  /**
   * Takes a rectification away: its defect is open again, with what was decided about it before.
   *
   * @param proof of the engineer who signs for it; null for a copy of old papers
   * @throws Refusal where it was certified and the viewer is no engineer
   */
  @Filing
  public UUID takeAway(Viewer viewer, Proof proof, UUID rowId, TakingAway asked, UUID formKey) {
    Rectification original = one(rowId);
    DefectSheet defect = current(original.defectEntryId);
    revisions.bump(viewer, defect.aircraftId());
    Optional<Rectification> before = repository.ofForm(Rectification.class, formKey);
    if (before.isPresent()) {
      return before.get().id();
    }
    Certifying.reasonNeeded(asked.reason());
    stillStands(original);
    Rectification row = original.takenAway();
    row.correct(rowId, asked.reason());
    row.fromForm(formKey);
    if (!original.transcribedFrom.isEmpty()) {
      mayTranscribe(viewer);
      ledger.file(act(viewer), row);
      return row.id();
    }
    return sign(viewer, proof, defect, row, Certifying.TAKEN_AWAY, asked.licenceNumber());
  }

  private UUID sign(
      Viewer viewer,
      Proof proof,
      DefectSheet defect,
      Rectification row,
      String statement,
      String licence) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("aircraft", fleet.sheet(viewer, row.aircraftId, View.EVERYTHING).registration());
    shown.put("defect", defect.no());
    shown.put("words", defect.defect().words());
    shown.put("done", row.done);
    shown.put("data-reference", row.dataReference);
    shown.put("on", row.happenedOn().toString());
    if (row.isVoid()) {
      shown.put("reason", row.reason());
    }
    signatures.file(
        viewer, proof, Signer.engineer(licence), List.of(Signing.of(row, statement, shown)));
    return row.id();
  }

  private Rectification certified(Viewer viewer, DefectSheet defect, CertifiedWork work) {
    Members.LicenceLine licence = certifying.licence(viewer, work, asked(defect));
    Rectification row = row(viewer, defect, work.words(), work.dataReference(), work.at());
    row.licenceNumber = licence.number();
    row.licenceKind = licence.kind();
    return row;
  }

  private Rectification transcribed(Viewer viewer, DefectSheet defect, Old old) {
    mayTranscribe(viewer);
    if (old.done().isEmpty() || old.done().length() > 4_000) {
      throw new Refusal("done", "What was done must be said, in at most 4,000 characters.");
    }
    if (old.transcribedFrom().isEmpty() || old.transcribedFrom().length() > 200) {
      throw new Refusal(
          "transcribed-from", "Copied from must name the paper and the page, in 200 characters.");
    }
    certifying.done(viewer, old.at(), asked(defect));
    Rectification row = row(viewer, defect, old.done(), old.dataReference(), old.at());
    row.licenceNumber = "";
    row.licenceKind = "";
    row.transcribedFrom = old.transcribedFrom();
    row.signedBy = old.signedBy();
    return row;
  }

  private static Rectification row(
      Viewer viewer, DefectSheet defect, String done, String data, Instant at) {
    Rectification row = new Rectification();
    row.aircraftId = defect.aircraftId();
    row.defectEntryId = defect.entryId();
    row.done = done;
    row.dataReference = data;
    row.happened(at, viewer.dateOf(at));
    return row;
  }

  private static Certifying.Asked asked(DefectSheet defect) {
    return new Certifying.Asked("done", "What was done", defect.foundOn(), "the defect was found");
  }

  /** The row after which it is closed anew, or null; refused while something closes it. */
  private UUID stillOpen(DefectSheet defect) {
    List<Rectification> rows =
        repository.rectifications(List.of(defect.entryId()), View.EVERYTHING);
    Rectification last = rows.isEmpty() ? null : rows.get(rows.size() - 1);
    if (last != null && !last.isVoid()) {
      throw new Stale(
          "Defect "
              + defect.no()
              + " was rectified since you opened this form. Nothing was filed.");
    }
    return last == null ? null : last.id();
  }

  private void stillStands(Rectification original) {
    if (original.isVoid() || repository.isCorrected(Rectification.class, original.id())) {
      throw new Stale("Someone has corrected this rectification since you opened this form.");
    }
  }

  private static void mayTranscribe(Viewer viewer) {
    if (!viewer.isAny(Role.CONTROLLER, Role.ENGINEER, Role.OWNER)) {
      throw new Refusal("", "Copying old papers is for engineers, controllers and owners.");
    }
  }

  private static UUID again(Rectification before, Rectification now) {
    boolean same =
        before.defectEntryId.equals(now.defectEntryId)
            && before.done.equals(now.done)
            && before.dataReference.equals(now.dataReference)
            && before.licenceNumber.equals(now.licenceNumber)
            && before.transcribedFrom.equals(now.transcribedFrom)
            && before.happenedOn().equals(now.happenedOn());
    if (!same) {
      throw new Stale("This form has filed a rectification already, with other content.");
    }
    return before.id();
  }

  private DefectSheet current(UUID entryId) {
    List<Defect> rows = repository.entries(List.of(entryId), View.EVERYTHING);
    if (rows.isEmpty()) {
      throw new NotHere("There is no such defect here.");
    }
    return DefectSheet.of(rows.get(rows.size() - 1));
  }

  private Rectification one(UUID rowId) {
    return repository
        .row(Rectification.class, rowId)
        .orElseThrow(() -> new NotHere("There is no such rectification here."));
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
