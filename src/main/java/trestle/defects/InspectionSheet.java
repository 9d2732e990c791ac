package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * One filed row of the inspection of an abnormal event.
 *
 * @param voided it takes away the row it corrects: the event waits for its inspection again
 */
public record InspectionSheet(
    UUID id,
    UUID eventEntryId,
    String found,
    String dataReference,
    String licenceNumber,
    String licenceKind,
    Instant at,
    LocalDate on,
    long ledgerSeq,
    Instant recordedAt,
    UUID recordedBy,
    UUID corrects,
    String reason,
    boolean voided) {

  static InspectionSheet of(EventInspection row) {
    return new InspectionSheet(
        row.id(),
        row.eventEntryId,
        row.found,
        row.dataReference,
        row.licenceNumber,
        row.licenceKind,
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
