package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * The revisions of programmes. What is filed of a programme's requirements belongs to the revision
 * issued last; an aircraft carries what belongs to the revision it took up, or to one before.
 */
@ApplicationScoped
public class ProgrammeRevisions {
  @Inject ProgrammeRepository repository;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * A revision to be issued.
   *
   * @param on the day from which it may be taken up
   * @param reference the approval, or ""
   */
  public record NewIssue(
      UUID programmeId,
      String number,
      LocalDate on,
      String approvedBy,
      String reference,
      String reason,
      UUID formKey) {}

  /**
   * Issues a revision; which aircraft take it up, and when, is filed for each.
   *
   * @return its id
   * @throws Refusal when that number was issued, or a later day's revision is here already
   */
  @Filing
  public UUID issue(Viewer viewer, NewIssue asked) {
    Programme programme = repository.lock(asked.programmeId());
    if (programme == null || programme.corrects() != null) {
      throw new NotHere("There is no such programme here.");
    }
    ProgrammeRevision before = repository.revisionOfForm(asked.formKey());
    if (before != null) {
      return before.id();
    }
    check(asked);
    ProgrammeRevision row = new ProgrammeRevision();
    row.programmeId = asked.programmeId();
    row.number = asked.number().strip();
    row.approvedBy = asked.approvedBy().strip();
    row.reference = asked.reference().strip();
    row.happened(asked.on().atStartOfDay(viewer.zone()).toInstant(), asked.on());
    row.because(asked.reason().strip());
    row.fromForm(asked.formKey());
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
    return row.id();
  }

  /**
   * What a revision should have said; from when it is in force stays as it was issued.
   *
   * @param corrects the row that is put right
   */
  public record Correcting(
      UUID programmeId,
      UUID corrects,
      String number,
      String approvedBy,
      String reference,
      String reason,
      UUID formKey) {}

  /**
   * Says what a revision should have said; both are kept.
   *
   * @throws Stale when it was corrected since
   */
  @Filing
  public void correct(Viewer viewer, Correcting asked) {
    if (repository.lock(asked.programmeId()) == null) {
      throw new NotHere("There is no such programme here.");
    }
    if (repository.revisionOfForm(asked.formKey()) != null) {
      return;
    }
    List<Issued> all = repository.revisions(List.of(asked.programmeId()), Records.ALL);
    Issued stands =
        all.stream()
            .filter(one -> one.rowId().equals(asked.corrects()))
            .findFirst()
            .orElseThrow(
                () -> new Stale("Someone corrected this revision since. Nothing was filed."));
    List<Refusal.Reason> faults = new ArrayList<>();
    needed(faults, "number", "Number", asked.number());
    needed(faults, "approved-by", "Approved by", asked.approvedBy());
    needed(faults, "reason", "Reason", asked.reason());
    if (faults.isEmpty()
        && all.stream()
            .filter(one -> !one.id().equals(stands.id()))
            .anyMatch(one -> one.number().equalsIgnoreCase(asked.number().strip()))) {
      faults.add(new Refusal.Reason("number", "Number was issued already."));
    }
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
    ProgrammeRevision row = new ProgrammeRevision();
    row.programmeId = asked.programmeId();
    row.entryId = stands.id();
    row.number = asked.number().strip();
    row.approvedBy = asked.approvedBy().strip();
    row.reference = asked.reference().strip();
    row.happened(stands.on().atStartOfDay(viewer.zone()).toInstant(), stands.on());
    row.correct(asked.corrects(), asked.reason().strip());
    row.fromForm(asked.formKey());
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }

  /** A programme's revisions known in a view, oldest first, also those of a day to come. */
  @Reading
  public List<Issued> of(Viewer viewer, UUID programmeId, View view) {
    return repository.revisions(List.of(programmeId), view);
  }

  /** The revisions in force in a view, by programme, oldest first. */
  @Reading
  public Map<UUID, List<Issued>> ofAll(Viewer viewer, View view) {
    Map<UUID, List<Issued>> all = new HashMap<>();
    for (Issued one : repository.revisions(view)) {
      all.computeIfAbsent(one.programmeId(), id -> new ArrayList<>()).add(one);
    }
    return all;
  }

  private void check(NewIssue asked) {
    List<Refusal.Reason> faults = new ArrayList<>();
    needed(faults, "number", "Number", asked.number());
    needed(faults, "approved-by", "Approved by", asked.approvedBy());
    needed(faults, "reason", "Reason", asked.reason());
    for (Issued one : repository.revisions(List.of(asked.programmeId()), Records.ALL)) {
      if (one.number().equalsIgnoreCase(asked.number().strip())) {
        faults.add(new Refusal.Reason("number", "Number was issued already."));
      }
      if (one.on().isAfter(asked.on())) {
        faults.add(
            new Refusal.Reason(
                "on", "Date must not be before that of " + one.words() + ", which came first."));
      }
    }
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private static void needed(
      List<Refusal.Reason> faults, String field, String label, String value) {
    if (value == null || value.isBlank()) {
      faults.add(new Refusal.Reason(field, label + " is needed."));
    }
  }
}
