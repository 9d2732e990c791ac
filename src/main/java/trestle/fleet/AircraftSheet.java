package trestle.fleet;

import java.util.UUID;

/**
 * An aircraft as its particulars state it in one view.
 *
 * @param id of the aircraft
 * @param revisionId of the row that states it: what a form that revises it names
 */
public record AircraftSheet(UUID id, UUID revisionId, Particulars particulars) {

  public String registration() {
    return particulars.registration();
  }

  public String typeName() {
    return particulars.typeName();
  }

  public boolean retired() {
    return particulars.retired();
  }

  public trestle.reckoning.HoursStyle shownAs() {
    return particulars.shownAs();
  }

  /** "Time in service from flight times", as printed on reports. */
  public String basisWords() {
    return particulars.hoursBasis() == HoursBasis.FLIGHT_TIMES
        ? "time in service from take-off and landing times"
        : "time in service from the " + particulars.meterName();
  }
}
