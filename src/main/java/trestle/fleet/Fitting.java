package trestle.fleet;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * One component in one position of one aircraft, from one moment to another.
 *
 * @param fromOn the operator's date of {@code from}
 * @param to null while it is still fitted (in the view asked for)
 * @param removalId the filed removal, or null
 */
public record Fitting(
    UUID fitmentId,
    UUID componentId,
    String partNumber,
    String serial,
    String description,
    PartKind kind,
    UUID aircraftId,
    String positionCode,
    String positionLabel,
    Instant from,
    LocalDate fromOn,
    Instant to,
    UUID removalId) {

  public boolean isFitted() {
    return to == null;
  }

  /** Whether the component was in its place at a moment; a removal's own moment is after it. */
  public boolean holdsAt(Instant moment) {
    return !from.isAfter(moment) && (to == null || to.isAfter(moment));
  }
}
