package trestle.flights;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * One filed row of the journey log.
 *
 * @param entryId the entry it states; the same through all its corrections
 * @param landedOn the operator's date of the landing
 * @param corrects the row it replaces, or null
 * @param reason why it corrects, or null
 * @param isVoid there was no such flight
 */
public record FlightSheet(
    UUID id,
    UUID entryId,
    UUID aircraftId,
    FlightDraft flight,
    LocalDate landedOn,
    long ledgerSeq,
    Instant recordedAt,
    UUID recordedBy,
    UUID corrects,
    String reason,
    boolean isVoid) {

  static FlightSheet of(Flight row) {
    return new FlightSheet(
        row.id(),
        row.entryId,
        row.aircraftId,
        row.draft(),
        row.happenedOn(),
        row.ledgerSeq(),
        row.recordedAt(),
        row.recordedBy(),
        row.corrects(),
        row.reason(),
        row.isVoid);
  }

  Leg leg() {
    return Leg.of(id, entryId, aircraftId, flight, landedOn);
  }
}
