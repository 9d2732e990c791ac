package trestle.fleet;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * One component on one aircraft, from one moment to another. For a part of a larger component it is
 * derived: while it sat in that, and that on the aircraft.
 *
 * @param fitmentId the filed fitment of the component itself
 * @param positionCode the aircraft's position; for a part of an assembly followed by a stroke and
 *     its place there, so that it never equals a position
 * @param positionLabel "Engine 1, left", or "Engine 1, left, left magneto"
 * @param fromOn the operator's date of {@code from}
 * @param to null while it is still fitted (in the view asked for)
 * @param removalId the filed removal of the component itself, or null
 * @param assemblyId the component it sits in, or null
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
    UUID removalId,
    UUID assemblyId) {

  public boolean isFitted() {
    return to == null;
  }

  /** Whether the component was in its place at a moment; a removal's own moment is after it. */
  public boolean holdsAt(Instant moment) {
    return !from.isAfter(moment) && (to == null || to.isAfter(moment));
  }
}
