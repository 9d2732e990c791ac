package trestle.directives;

import java.time.Instant;
import java.util.Objects;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Fitting;

/**
 * An aircraft, or a part with what it is fitted to, as a directive sees it.
 *
 * @param aircraftId the aircraft; null for a part on the shelf
 * @param componentId null for an aircraft
 * @param name its type or part number
 * @param serial as recorded
 * @param words what a page calls it
 * @param place where a part is fitted, "" on the shelf and for an aircraft
 * @param since when a part was fitted there, or null
 */
public record Item(
    UUID aircraftId,
    UUID componentId,
    String name,
    String serial,
    String words,
    String place,
    Instant since) {

  static Item of(AircraftSheet aircraft) {
    return new Item(
        aircraft.id(),
        null,
        aircraft.typeName(),
        aircraft.particulars().serial(),
        aircraft.registration(),
        "",
        null);
  }

  /**
   * @param fitted where it is fitted, or null
   */
  static Item of(ComponentSheet component, Fitting fitted) {
    return new Item(
        fitted == null ? null : fitted.aircraftId(),
        component.id(),
        component.partNumber(),
        component.serial(),
        component.words(),
        fitted == null ? "" : fitted.positionLabel(),
        fitted == null ? null : fitted.from());
  }

  static Item of(Fitting fitting) {
    return new Item(
        fitting.aircraftId(),
        fitting.componentId(),
        fitting.partNumber(),
        fitting.serial(),
        fitting.description() + ", part " + fitting.partNumber() + ", serial " + fitting.serial(),
        fitting.positionLabel(),
        fitting.from());
  }

  public UUID id() {
    return componentId == null ? aircraftId : componentId;
  }

  public boolean isComponent() {
    return componentId != null;
  }

  /** Where its assessment is asked about: the query of that page. */
  public String query() {
    return isComponent() ? "component=" + componentId : "aircraft=" + aircraftId;
  }

  /** Whether an assessment was made where the part is now, since it came there. */
  boolean isSince(AssessmentSheet assessment) {
    return Objects.equals(assessment.aircraftId(), aircraftId)
        && (since == null || !assessment.at().isBefore(since));
  }
}
