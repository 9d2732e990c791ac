package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.standing.Ground;
import trestle.web.Shown;

/**
 * One filed row of an abnormal event; it keeps the words its kind had that day.
 *
 * @param voided it takes the event away: it should not have been filed
 */
public record EventSheet(
    UUID id,
    UUID entryId,
    UUID aircraftId,
    long number,
    String kindCode,
    String kindName,
    String inspection,
    String words,
    UUID flightEntryId,
    List<String> photos,
    Instant at,
    LocalDate on,
    long ledgerSeq,
    Instant recordedAt,
    UUID recordedBy,
    UUID corrects,
    String reason,
    boolean voided) {

  static EventSheet of(AbnormalEvent row) {
    return new EventSheet(
        row.id(),
        row.entryId,
        row.aircraftId,
        row.number,
        row.kindCode,
        row.kindName,
        row.inspection,
        row.words,
        row.flightEntryId,
        List.of(row.photos),
        row.happenedAt(),
        row.happenedOn(),
        row.ledgerSeq(),
        row.recordedAt(),
        row.recordedBy(),
        row.corrects(),
        row.reason(),
        row.isVoid());
  }

  /** "No. 4". */
  public String no() {
    return "No. " + number;
  }

  public String link() {
    return "/abnormal-events/" + entryId;
  }

  Ground ground() {
    return Ground.held(
        kindName + " on " + Shown.date(on) + ": waits for its inspection to be certified.", link());
  }
}
