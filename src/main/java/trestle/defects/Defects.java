package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Components;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.Numbers;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Reporting defects, and putting reports right. A defect keeps its number and the moment it was
 * found for ever, and can't be declared void: it is rectified ({@link Rectifications}).
 */
@ApplicationScoped
public class Defects {
  private static final String NUMBERS = "defect";

  @Inject DefectRepository repository;
  @Inject Photos photos;
  @Inject Components components;
  @Inject Revisions revisions;
  @Inject Numbers numbers;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** What was filed. */
  public record Reported(UUID entryId, UUID id, long number, long ledgerSeq) {}

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
   * "must not fly" is not taken back here: that is for an engineer to decide. A report raised to
   * "must not fly" holds again, whatever was decided about it before.
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
    Certifying.reasonNeeded(reason);
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
    if (original.judgement.equals(Judgement.CAN_FLY.word())
        && draft.judgement() == Judgement.MUST_NOT_FLY
        && isRectified(original.entryId)) {
      throw new Refusal(
          "judgement", "It was put right, so that nothing is held by it: report it anew.");
    }
    knowsComponent(viewer, draft);
    return filed(viewer, row);
  }

  private boolean isRectified(UUID entryId) {
    return repository.rectifications(List.of(entryId), View.EVERYTHING).stream()
        .reduce((earlier, later) -> later)
        .filter(row -> !row.isVoid())
        .isPresent();
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

  private static void refuse(List<Refusal.Reason> faults) {
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
