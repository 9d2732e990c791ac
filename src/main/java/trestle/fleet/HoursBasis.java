package trestle.fleet;

import java.util.Locale;

/** What an aircraft's time in service is taken from; declared, and printed on its reports. */
public enum HoursBasis {
  /** Take-off to landing, flight by flight (14 CFR 1.1, "time in service"). */
  FLIGHT_TIMES,
  /** A meter's reading after the flight less its reading before. */
  METER;

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static HoursBasis parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
