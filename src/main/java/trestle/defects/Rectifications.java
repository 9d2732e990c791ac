package trestle.defects;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import java.util.function.Supplier;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.people.Proof;
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
    DefectSheet defect = locked(viewer, entryId);
    Rectification row = certified(viewer, defect, work);
    return once(
        row,
        formKey,
        () -> {
          row.afterVoided = stillOpen(defect);
          secondPersonAsked(defect, work);
          return sign(viewer, proof, defect, row, Certifying.RECTIFIED, row.licenceNumber);
        });
  }

  /** Closes a defect by what old papers say was done: copied, not certified. */
  @Filing
  public UUID transcribe(Viewer viewer, UUID entryId, Old old, UUID formKey) {
    DefectSheet defect = locked(viewer, entryId);
    Rectification row = transcribed(viewer, defect, old);
    return once(
        row,
        formKey,
        () -> {
          row.afterVoided = stillOpen(defect);
          return file(viewer, row);
        });
  }

  /** Says what a certified rectification should have said; the original is kept and shown. */
  @Filing
  public UUID correct(
      Viewer viewer, Proof proof, UUID rowId, CertifiedWork work, String reason, UUID formKey) {
    Rectification original = one(rowId);
    DefectSheet defect = locked(viewer, original.defectEntryId);
    Certifying.reasonNeeded(reason);
    if (original.isTranscribed()) {
      throw new Refusal("", "What was copied from old papers is put right as a copy of them.");
    }
    Rectification row = certified(viewer, defect, work);
    row.correct(rowId, reason.strip());
    return once(
        row,
        formKey,
        () -> {
          certifying.stillStands(original);
          return sign(viewer, proof, defect, row, Certifying.RECTIFIED, row.licenceNumber);
        });
  }

  /** Says what a copy of old papers should have said; the original is kept and shown. */
  @Filing
  public UUID correct(Viewer viewer, UUID rowId, Old old, String reason, UUID formKey) {
    Rectification original = one(rowId);
    DefectSheet defect = locked(viewer, original.defectEntryId);
    Certifying.reasonNeeded(reason);
    if (!original.isTranscribed()) {
      throw new Refusal("", "What an engineer certified is put right by an engineer, who signs.");
    }
    Rectification row = transcribed(viewer, defect, old);
    row.correct(rowId, reason.strip());
    return once(
        row,
        formKey,
        () -> {
          certifying.stillStands(original);
          return file(viewer, row);
        });
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
    DefectSheet defect = locked(viewer, original.defectEntryId);
    Certifying.reasonNeeded(asked.reason());
    Rectification row = new Rectification();
    row.defectEntryId = original.defectEntryId;
    row.done = original.done;
    row.transcribedFrom = original.transcribedFrom;
    row.signedBy = original.signedBy;
    row.takesAway(original, asked.reason());
    return once(
        row,
        formKey,
        () -> {
          certifying.stillStands(original);
          if (original.isTranscribed()) {
            mayTranscribe(viewer);
            return file(viewer, row);
          }
          return sign(viewer, proof, defect, row, Certifying.TAKEN_AWAY, asked.licenceNumber());
        });
  }

  private UUID once(Rectification row, UUID formKey, Supplier<UUID> filing) {
    return certifying.filedBefore(row, Rectification.class, formKey).orElseGet(filing);
  }

  private UUID sign(
      Viewer viewer,
      Proof proof,
      DefectSheet defect,
      Rectification row,
      String statement,
      String licence) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("defect", defect.no());
    shown.put("words", defect.defect().words());
    return certifying.sign(viewer, proof, row, statement, licence, shown);
  }

  private UUID file(Viewer viewer, Rectification row) {
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
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

  /** Here one person signs: work on controls is signed where a second one inspects it. */
  private static void secondPersonAsked(DefectSheet defect, CertifiedWork work) {
    if (defect.isOfControls() && !work.inspected()) {
      throw new Refusal(
          "",
          "A second person inspects work on flight and engine controls: put this defect on a work"
              + " order, and sign there.");
    }
  }

  private static Certifying.Asked asked(DefectSheet defect) {
    return new Certifying.Asked("done", "What was done", defect.foundOn(), "the defect was found");
  }

  private UUID stillOpen(DefectSheet defect) {
    return Certifying.afterVoided(
        repository.rectifications(List.of(defect.entryId()), View.EVERYTHING),
        "Defect " + defect.no() + " was rectified since you opened this form. Nothing was filed.");
  }

  private static void mayTranscribe(Viewer viewer) {
    if (!viewer.isAny(Role.CONTROLLER, Role.ENGINEER, Role.OWNER)) {
      throw new Refusal("", "Copying old papers is for engineers, controllers and owners.");
    }
  }

  /** The defect as it stands, its aircraft locked until the commit. */
  private DefectSheet locked(Viewer viewer, UUID entryId) {
    List<Defect> rows = repository.entries(List.of(entryId), View.EVERYTHING);
    if (rows.isEmpty()) {
      throw new NotHere("There is no such defect here.");
    }
    revisions.bump(viewer, rows.get(0).aircraftId);
    return DefectSheet.of(rows.get(rows.size() - 1));
  }

  private Rectification one(UUID rowId) {
    return repository
        .row(Rectification.class, rowId)
        .orElseThrow(() -> new NotHere("There is no such rectification here."));
  }
}
