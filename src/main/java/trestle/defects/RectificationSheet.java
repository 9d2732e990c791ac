package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/** One filed row of what was done about a defect. */
public record RectificationSheet(
    UUID id,
    UUID defectEntryId,
    String done,
    String dataReference,
    String licenceNumber,
    String licenceKind,
    Instant at,
    LocalDate on,
    long ledgerSeq,
    Instant recordedAt,
    UUID recordedBy,
    UUID corrects,
    String reason) {

  static RectificationSheet of(Rectification row) {
    return new RectificationSheet(
        row.id(),
        row.defectEntryId,
        row.done,
        row.dataReference,
        row.licenceNumber,
        row.licenceKind,
        row.happenedAt(),
        row.happenedOn(),
        row.ledgerSeq(),
        row.recordedAt(),
        row.recordedBy(),
        row.corrects(),
        row.reason());
  }
}
