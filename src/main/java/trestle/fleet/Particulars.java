package trestle.fleet;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import trestle.reckoning.HoursStyle;
import trestle.web.Refusal;

/**
 * What is stated of an aircraft and may be revised.
 *
 * @param builtYear null where it is not known
 * @param meterName what the aircraft's meter is called, "" where it has none; with {@link
 *     HoursBasis#METER} it must have one
 * @param rounding how its logbook takes each flight's time
 * @param shownAs how its hours are shown on pages
 * @param fuelUnit the unit its fuel is stated in
 */
public record Particulars(
    String registration,
    String typeName,
    String manufacturer,
    String serial,
    Integer builtYear,
    HoursBasis hoursBasis,
    String meterName,
    Rounding rounding,
    HoursStyle shownAs,
    String fuelUnit,
    boolean retired) {

  private static final Pattern REGISTRATION = Pattern.compile("[A-Z0-9][A-Z0-9-]{1,9}");

  public Particulars {
    registration = registration.strip().toUpperCase(Locale.ROOT);
    typeName = typeName.strip();
    manufacturer = manufacturer.strip();
    serial = serial.strip();
    meterName = meterName.strip();
    fuelUnit = fuelUnit.isBlank() ? "litres" : fuelUnit.strip();
  }

  /** A sensible start: hours from flight times, to the minute, shown in tenths. */
  public static Particulars of(String registration, String typeName, String serial) {
    return new Particulars(
        registration,
        typeName,
        "",
        serial,
        null,
        HoursBasis.FLIGHT_TIMES,
        "",
        Rounding.EXACT,
        HoursStyle.TENTHS,
        "litres",
        false);
  }

  public Particulars byMeter(String named) {
    return with(registration, HoursBasis.METER, named, rounding, retired);
  }

  /** With a meter that is read and compared, while the hours come from flight times. */
  public Particulars withMeter(String named) {
    return with(registration, hoursBasis, named, rounding, retired);
  }

  public Particulars rounded(Rounding to) {
    return with(registration, hoursBasis, meterName, to, retired);
  }

  private Particulars with(
      String mark, HoursBasis basis, String meter, Rounding round, boolean out) {
    return new Particulars(
        mark,
        typeName,
        manufacturer,
        serial,
        builtYear,
        basis,
        meter,
        round,
        shownAs,
        fuelUnit,
        out);
  }

  /** Whether flights are asked for meter readings. */
  public boolean hasMeter() {
    return !meterName.isEmpty();
  }

  /** What is wrong with them, by form field; empty when nothing is. */
  List<Refusal.Reason> faults() {
    List<Refusal.Reason> faults = new ArrayList<>();
    if (!REGISTRATION.matcher(registration).matches()) {
      faults.add(
          new Refusal.Reason(
              "registration",
              "Registration must be 2 to 10 letters, digits and hyphens, like QX-ABC."));
    }
    length(faults, "type", "Type", typeName, 80);
    length(faults, "serial", "Serial number", serial, 60);
    if (manufacturer.length() > 120) {
      faults.add(
          new Refusal.Reason("manufacturer", "Manufacturer must be at most 120 characters."));
    }
    if (meterName.length() > 60) {
      faults.add(new Refusal.Reason("meter", "Meter must be at most 60 characters."));
    }
    if (!FuelUnit.isUnit(fuelUnit)) {
      faults.add(
          new Refusal.Reason("fuel-unit", "Unit of fuel must be litres, US gallons, kg or lb."));
    }
    if (builtYear != null && (builtYear < 1900 || builtYear > 2200)) {
      faults.add(new Refusal.Reason("built", "Year built must be a year such as 1998."));
    }
    if (hoursBasis == HoursBasis.METER && meterName.isEmpty()) {
      faults.add(
          new Refusal.Reason("meter", "Meter must have a name when hours are taken from it."));
    }
    return faults;
  }

  private static void length(
      List<Refusal.Reason> faults, String field, String label, String value, int most) {
    if (value.isEmpty()) {
      faults.add(new Refusal.Reason(field, label + " is needed."));
    } else if (value.length() > most) {
      faults.add(new Refusal.Reason(field, label + " must be at most " + most + " characters."));
    }
  }
}
