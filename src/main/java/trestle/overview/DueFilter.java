package trestle.overview;

import java.time.LocalDate;
import java.util.Collection;
import java.util.UUID;
import trestle.reckoning.Hours;
import trestle.reckoning.State;
import trestle.standing.Force;
import trestle.web.Form;

/**
 * Which lines a due list shows.
 *
 * @param aircraft only this one, or null
 * @param force only this force, or null
 * @param hours only what is within so many hours, or within {@code days}; or null
 * @param days only what is within so many days, by its date or its projected date; or null
 */
record DueFilter(String aircraft, Force force, Hours hours, Long days) {
  static final String AIRCRAFT = "aircraft";
  static final String FORCE = "force";
  static final String HOURS = "hours";
  static final String DAYS = "days";

  /** Reads the form; what is wrong is noted in it. */
  static DueFilter read(Form form, Collection<String> aircraftIds) {
    return new DueFilter(
        form.optional(AIRCRAFT, "Aircraft").choice(aircraftIds),
        form.optional(FORCE, "Force").choice(Force.class),
        form.optional(HOURS, "Within hours").hours(),
        form.optional(DAYS, "Within days").read(DueFilter::days));
  }

  boolean takes(UUID aircraftId) {
    return aircraft == null || aircraft.equals(aircraftId.toString());
  }

  boolean takes(DueRow row, LocalDate day) {
    return row.item().state() != State.DONE
        && (force == null || force == row.item().force())
        && (hours == null && days == null
            || mustBeSeen(row)
            || isWithinHours(row)
            || isWithinDays(row, day));
  }

  /** What is past its limit, or not known, stands in every list, however short. */
  private static boolean mustBeSeen(DueRow row) {
    return row.item().reckoning().spent() || row.item().state() == State.UNKNOWN;
  }

  private boolean isWithinHours(DueRow row) {
    Long left = row.secondsLeft();
    return hours != null && left != null && left <= hours.seconds();
  }

  private boolean isWithinDays(DueRow row, LocalDate day) {
    if (days == null) {
      return false;
    }
    Long left = row.daysLeft();
    LocalDate projected = row.item().reckoning().projectedOn();
    return left != null && left <= days
        || projected != null && !projected.isAfter(day.plusDays(days));
  }

  private static Long days(String typed) {
    if (!typed.matches("[0-9]{1,5}")) {
      throw new IllegalArgumentException("must be a whole number of days, like 30");
    }
    return Long.valueOf(typed);
  }
}
