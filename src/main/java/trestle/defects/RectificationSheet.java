package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * One filed row of what was done about a defect.
 *
 * @param transcribedFrom the old paper it was copied from, or "" when it was certified here
 * @param signedBy who signed that paper
 * @param voided it takes away the row it corrects: the defect is open again
 */
public record RectificationSheet(
    UUID id,
    UUID defectEntryId,
    String done,
    String dataReference,
    String licenceNumber,
    String licenceKind,
    String transcribedFrom,
    String signedBy,
    Instant at,
    LocalDate on,
    long ledgerSeq,
    Instant recordedAt,
    UUID recordedBy,
    UUID corrects,
    String reason,
    boolean voided) {

  public boolean isTranscribed() {
    return !transcribedFrom.isEmpty();
  }

  /** What was done, and where it was copied from if it was. */
  public String marked() {
    return isTranscribed() ? done + " (transcribed from " + transcribedFrom + ")" : done;
  }

  static RectificationSheet of(Rectification row) {
    return new RectificationSheet(
        row.id(),
        row.defectEntryId,
        row.done,
        row.dataReference,
        row.licenceNumber,
        row.licenceKind,
        row.transcribedFrom,
        row.signedBy,
        row.happenedAt(),
        row.happenedOn(),
        row.ledgerSeq(),
        row.recordedAt(),
        row.recordedBy(),
        row.corrects(),
        row.reason(),
        row.isVoid());
  }
}
