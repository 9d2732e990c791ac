package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * When required work was done. An engineer certifies it under a licence; copied from old papers it
 * is marked so and is no certification. A correction is a new row; both stay.
 */
@ApplicationScoped
public class Compliances {
  @Inject ComplianceRepository repository;
  @Inject Subjects subjects;
  @Inject ComplianceCheck check;
  @Inject DocumentFiles files;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * Files that work was done, or from where it counts.
   *
   * @return the id of its record
   * @throws Refusal naming the field that can't stand
   */
  @Filing
  public UUID file(Viewer viewer, NewCompliance asked) {
    return file(viewer, asked, List.of());
  }

  /** The same with papers, each kept under its SHA-256, which the record names. */
  @Filing
  public UUID file(Viewer viewer, NewCompliance asked, List<DocumentFiles.Draft> papers) {
    bump(viewer, asked.aircraftId(), asked.componentId());
    Compliance before = repository.ofForm(Compliance.class, asked.formKey());
    if (before != null) {
      return before.id();
    }
    Compliance row = row(viewer, asked);
    keep(viewer, row, List.of(), papers);
    file(viewer, row);
    return row.id();
  }

  /**
   * Files what should have stood there, with a reason. The requirement and its subject stay.
   *
   * @return the id of the new record
   * @throws Stale when someone corrected the same record since the form was opened
   */
  @Filing
  public UUID correct(Viewer viewer, UUID complianceId, NewCompliance asked, String reason) {
    return correct(viewer, complianceId, asked, reason, null, List.of());
  }

  /**
   * The same with other papers.
   *
   * @param staying the SHA-256 of those filed before that stay with it; null: all of them
   * @param added those that are new
   */
  @Filing
  public UUID correct(
      Viewer viewer,
      UUID complianceId,
      NewCompliance asked,
      String reason,
      Collection<String> staying,
      List<DocumentFiles.Draft> added) {
    Compliance original = standing(viewer, complianceId, asked.formKey());
    if (original == null) {
      return repository.ofForm(Compliance.class, asked.formKey()).id();
    }
    needReason(reason);
    if (!original.requirementId.equals(asked.requirementId())
        || !original.subjectId().equals(asked.subjectId())) {
      throw new Refusal("", "A correction is about the same requirement and the same subject.");
    }
    Compliance row = row(viewer, asked);
    keep(
        viewer,
        row,
        original.files().stream().filter(sha -> staying == null || staying.contains(sha)).toList(),
        added);
    if (!asked.baseline()
        && original.countsFrom != null
        && !original.countsFrom.isBefore(row.happenedOn())) {
      row.countsFrom = original.countsFrom;
    }
    row.correct(complianceId, reason);
    file(viewer, row);
    return row.id();
  }

  /**
   * Says from which day limits by the calendar count, where a rule profile counts from the release:
   * the work keeps its own day and hours. Nothing is filed where the record was taken away, or
   * counts from that day already.
   *
   * @param complianceId as it was filed; corrected since or not
   */
  @Filing
  public void countFrom(Viewer viewer, UUID complianceId, LocalDate day, String reason) {
    Compliance stands = latest(complianceId);
    bump(viewer, stands.aircraftId, stands.componentId);
    needReason(reason);
    ComplianceCheck.mayFile(viewer, "");
    LocalDate counted = stands.countsFrom == null ? stands.happenedOn() : stands.countsFrom;
    if (stands.voided || !day.isAfter(counted)) {
      return;
    }
    Compliance row = copy(stands);
    row.countsFrom = day;
    row.correct(stands.id(), reason);
    file(viewer, row);
  }

  private Compliance latest(UUID complianceId) {
    Compliance row = repository.one(Compliance.class, complianceId);
    if (row == null) {
      throw new NotHere("There is no such record here.");
    }
    for (Compliance next = row; next != null; ) {
      row = next;
      next = repository.correctionOf(Compliance.class, row.id());
    }
    return row;
  }

  /** Takes a compliance away that should not have been filed; it stays to be seen. */
  @Filing
  public UUID voided(Viewer viewer, UUID complianceId, String reason, UUID formKey) {
    Compliance original = standing(viewer, complianceId, formKey);
    if (original == null) {
      return repository.ofForm(Compliance.class, formKey).id();
    }
    needReason(reason);
    ComplianceCheck.mayFile(viewer, original.transcribedFrom);
    Compliance row = copy(original);
    row.voided = true;
    row.correct(complianceId, reason);
    row.fromForm(formKey);
    file(viewer, row);
    return row.id();
  }

  /** A row that says what another says, to be changed. */
  private static Compliance copy(Compliance original) {
    Compliance row = new Compliance();
    row.requirementId = original.requirementId;
    row.aircraftId = original.aircraftId;
    row.componentId = original.componentId;
    row.kind = original.kind;
    row.readings = original.readings;
    row.workReference = original.workReference;
    row.certifiedBy = original.certifiedBy;
    row.licenceNumber = original.licenceNumber;
    row.transcribedFrom = original.transcribedFrom;
    row.complete = original.complete;
    row.countsFrom = original.countsFrom;
    row.remarks = original.remarks;
    row.setFiles(original.files());
    row.happened(original.happenedAt(), original.happenedOn());
    return row;
  }

  /** The row to be corrected; null when this very form was filed before. */
  private Compliance standing(Viewer viewer, UUID complianceId, UUID formKey) {
    Compliance original = repository.one(Compliance.class, complianceId);
    if (original == null) {
      throw new NotHere("There is no such record here.");
    }
    bump(viewer, original.aircraftId, original.componentId);
    if (repository.ofForm(Compliance.class, formKey) != null) {
      return null;
    }
    if (original.voided || repository.correctionOf(Compliance.class, complianceId) != null) {
      throw new Stale("Someone corrected this record since you opened this form.");
    }
    return original;
  }

  private Compliance row(Viewer viewer, NewCompliance asked) {
    check.refuseUnfit(viewer, asked, clock.instant());
    boolean certified = asked.transcribedFrom().isBlank();
    Compliance row = new Compliance();
    row.requirementId = asked.requirementId();
    row.aircraftId = asked.aircraftId();
    row.componentId = asked.componentId();
    row.kind = asked.baseline() ? Compliance.BASELINE : Compliance.DONE;
    row.readings = Readings.json(asked.readings());
    row.workReference = asked.workReference().strip();
    row.certifiedBy = certified ? viewer.personName() : asked.certifiedBy().strip();
    row.licenceNumber = asked.licenceNumber().strip();
    row.transcribedFrom = asked.transcribedFrom().strip();
    row.complete = asked.complete();
    row.countsFrom = asked.baseline() ? asked.countsFrom() : null;
    row.remarks = asked.remarks().strip();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    return row;
  }

  private static void needReason(String reason) {
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say what was wrong.");
    }
  }

  private void bump(Viewer viewer, UUID aircraftId, UUID componentId) {
    Set<UUID> aircraft = new HashSet<>();
    if (aircraftId != null) {
      aircraft.add(aircraftId);
    }
    if (componentId != null) {
      aircraft.addAll(subjects.aircraftWith(viewer, componentId));
    }
    revisions.bump(viewer, aircraft);
  }

  private void keep(
      Viewer viewer, Compliance row, List<String> staying, List<DocumentFiles.Draft> added) {
    Set<String> all = new LinkedHashSet<>(staying);
    added.forEach(paper -> all.add(paper.sha256()));
    if (all.size() > DocumentFiles.MOST_FILES) {
      throw new Refusal(
          DocumentFiles.FIELD, "Files must be at most " + DocumentFiles.MOST_FILES + " together.");
    }
    added.forEach(paper -> files.keep(viewer, paper));
    row.setFiles(all);
  }

  private void file(Viewer viewer, Compliance row) {
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }
}
