package trestle.fleet;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * One component where somebody put it, from one moment to another: in a position of an aircraft, or
 * in a place of another component, with which it travels.
 *
 * @param aircraftId with {@code positionCode}, or null
 * @param positionLabel what the aircraft calls the position, or its code where it has none now
 * @param assemblyId with {@code place}, or null
 * @param to null while it is still there (in the view asked for)
 * @param removalId the filed removal, or null
 * @param why why it was removed, or ""
 */
public record Placement(
    UUID fitmentId,
    UUID componentId,
    UUID aircraftId,
    String positionCode,
    String positionLabel,
    UUID assemblyId,
    String place,
    Instant from,
    LocalDate fromOn,
    Instant to,
    UUID removalId,
    String why,
    boolean scheduled) {

  public boolean isOpen() {
    return to == null;
  }

  public boolean isInComponent() {
    return assemblyId != null;
  }

  /** The aircraft, or the other component. */
  UUID holder() {
    return assemblyId == null ? aircraftId : assemblyId;
  }

  /** The position's code, or the place. */
  String spot() {
    return assemblyId == null ? positionCode : place;
  }

  boolean isSameSpot(UUID otherHolder, String otherSpot) {
    return holder().equals(otherHolder) && spot().equalsIgnoreCase(otherSpot);
  }

  /** Whether it was there at some moment from one to another (null: without end). */
  boolean meets(Instant otherFrom, Instant otherTo) {
    boolean beforeItEnds = to == null || otherFrom.isBefore(to);
    boolean afterItBegins = otherTo == null || from.isBefore(otherTo);
    return beforeItEnds && afterItBegins;
  }
}
