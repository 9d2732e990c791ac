package trestle.programme;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;

/**
 * A granted extension as pages show it, standing or not.
 *
 * @param due what it was due at when it was granted, on the limit's scale
 * @param calendar whether that scale is the calendar's
 */
public record ExtensionLine(
    UUID id,
    UUID requirementId,
    LocalDate on,
    List<Integer> limit,
    boolean calendar,
    Long due,
    long newDue,
    String approvedBy,
    String reference,
    String allowedBy,
    UUID recordedBy,
    Instant recordedAt,
    UUID corrects,
    UUID correctedBy,
    String reason,
    boolean voids) {

  public boolean stands() {
    return correctedBy == null && !voids;
  }
}
