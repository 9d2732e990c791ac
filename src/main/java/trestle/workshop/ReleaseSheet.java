package trestle.workshop;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;

/**
 * What was certified of the aircraft at the end of an order.
 *
 * @param discrepancies what was found, where it is not airworthy
 * @param completedOn the day on which the last of the work was done
 * @param checkFlight why a check flight is asked for, or ""
 */
public record ReleaseSheet(
    UUID id,
    UUID orderId,
    UUID aircraftId,
    boolean airworthy,
    String statement,
    List<String> discrepancies,
    LocalDate completedOn,
    String checkFlight,
    String times,
    String remarks,
    String releaserName,
    String licenceNumber,
    String licenceKind,
    String profileName,
    Instant at,
    LocalDate on) {

  static ReleaseSheet of(WorkRelease row) {
    return new ReleaseSheet(
        row.id(),
        row.orderEntryId,
        row.aircraftId,
        row.airworthy,
        row.statement,
        List.of(row.discrepancies),
        row.completedOn,
        row.checkFlight,
        row.times,
        row.remarks,
        row.releaserName,
        row.licenceNumber,
        row.licenceKind,
        row.profileName,
        row.happenedAt(),
        row.happenedOn());
  }

  public String by() {
    return releaserName + ", " + licenceKind + " " + licenceNumber;
  }

  public boolean asksCheckFlight() {
    return !checkFlight.isEmpty();
  }
}
