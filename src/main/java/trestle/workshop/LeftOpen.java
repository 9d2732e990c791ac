package trestle.workshop;

import java.time.LocalDate;
import java.util.UUID;

/** That a line is left open, until when, and on whose authority. */
public record LeftOpen(
    UUID id,
    UUID lineId,
    UUID aircraftId,
    String why,
    String authority,
    String reference,
    LocalDate lastDay,
    String licenceNumber,
    String licenceKind,
    LocalDate on) {

  static LeftOpen of(LineDeferral row) {
    return new LeftOpen(
        row.id(),
        row.lineEntryId,
        row.aircraftId,
        row.why,
        row.authority,
        row.reference,
        row.lastDay,
        row.licenceNumber,
        row.licenceKind,
        row.happenedOn());
  }
}
