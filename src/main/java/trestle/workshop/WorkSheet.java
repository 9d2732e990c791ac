package trestle.workshop;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * What was done about a line, as it was signed.
 *
 * @param times the totals of the aircraft and of what was fitted then, as JSON
 * @param performedBy whoever did it with their own hands, where that is not the signer; else ""
 * @param foundDefect the defect that a finding became, or null
 * @param complianceId of a required inspection: the compliance that was filed with it
 * @param bookId into whose logbook it is entered: the aircraft's id, an engine's or a propeller's;
 *     null where the line itself says it
 */
public record WorkSheet(
    UUID id,
    UUID lineId,
    Outcome outcome,
    String words,
    String dataReference,
    String dataRevision,
    Instant at,
    LocalDate on,
    String times,
    UUID workedBy,
    String workerName,
    String performedBy,
    String licenceNumber,
    String licenceKind,
    UUID foundDefect,
    UUID complianceId,
    UUID bookId,
    boolean voided,
    UUID corrects,
    String reason,
    Instant recordedAt) {

  static WorkSheet of(LineWork row) {
    return new WorkSheet(
        row.id(),
        row.lineEntryId,
        Outcome.parse(row.outcome),
        row.words,
        row.dataReference,
        row.dataRevision,
        row.happenedAt(),
        row.happenedOn(),
        row.times,
        row.workedBy,
        row.workerName,
        row.performedBy,
        row.licenceNumber,
        row.licenceKind,
        row.foundDefect,
        row.complianceId,
        row.bookId,
        row.isVoid(),
        row.corrects(),
        row.reason(),
        row.recordedAt());
  }

  /** "Manual 24-30, revision 12". */
  public String data() {
    return dataRevision.isEmpty() ? dataReference : dataReference + ", revision " + dataRevision;
  }

  /** "R. Quill, licensed engineer E-77". */
  public String by() {
    return workerName + ", " + licenceKind + " " + licenceNumber;
  }

  public boolean isFinding() {
    return outcome == Outcome.FINDING;
  }
}
