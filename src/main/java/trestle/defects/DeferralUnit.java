package trestle.defects;

import java.util.Locale;
import trestle.reckoning.Counter;

/** In what the interval of a category A item is stated. */
public enum DeferralUnit {
  DAYS("calendar days"),
  FLIGHT_DAYS("flight-days"),
  FLIGHTS("flights"),
  HOURS("hours"),
  LANDINGS("landings"),
  CYCLES("cycles");

  private final String shown;

  DeferralUnit(String shown) {
    this.shown = shown;
  }

  public String shown() {
    return shown;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static DeferralUnit parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  /** What is counted; of days nothing is. */
  Counter counter() {
    return new Counter(word());
  }

  /** Whether it is counted by the flights themselves, and not by a counter of the aircraft. */
  boolean byFlights() {
    return this == FLIGHT_DAYS || this == FLIGHTS;
  }
}
