package trestle.fleet;

import java.util.Locale;
import trestle.reckoning.Hours;

/** How an aircraft's logbook takes each flight's time. */
public enum Rounding {
  EXACT,
  TENTHS;

  public long of(long seconds) {
    return this == EXACT ? seconds : new Hours(seconds).toTenth().seconds();
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static Rounding parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT));
  }
}
