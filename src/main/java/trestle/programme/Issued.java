package trestle.programme;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A revision of a programme.
 *
 * @param rowId the row that counts: another where it was corrected
 * @param sequence its place in the ledger, which orders revisions
 * @param number as printed: "12"
 * @param on the day from which it may be taken up
 * @param reference the approval, or ""
 */
public record Issued(
    UUID id,
    UUID rowId,
    UUID programmeId,
    long sequence,
    String number,
    LocalDate on,
    String approvedBy,
    String reference,
    String reason,
    UUID recordedBy) {

  public boolean isCorrected() {
    return !rowId.equals(id);
  }

  public String words() {
    return "revision " + number;
  }
}
