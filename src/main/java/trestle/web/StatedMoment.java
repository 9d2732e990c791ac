package trestle.web;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;

/**
 * A day with a time that may be left out, as a moment: the fields {@code on} and {@code time}. A
 * day alone means its end (or now, today): after everything that was flown on it.
 */
public final class StatedMoment {
  private StatedMoment() {}

  /** The moment, or null with the reason noted in the form; never after now. */
  public static Instant of(Form form, String label, Viewer viewer, Instant now) {
    LocalDate on = form.required("on", label).dateUpTo(latest(viewer, now));
    LocalTime time = form.optional("time", "Time").time();
    if (on == null || form.isBad("time")) {
      return null;
    }
    Instant at =
        time == null
            ? endOf(on, viewer)
            : LocalMoment.asked(form, "time", "Time", on.atTime(time), viewer.flightZone());
    if (at != null && time != null && at.isAfter(now)) {
      form.fail("time", "Time must not be in the future.");
      return null;
    }
    return at == null || at.isBefore(now) ? at : now;
  }

  /**
   * Today where the operator is, or where its flight times are counted: there it may be tomorrow.
   */
  private static LocalDate latest(Viewer viewer, Instant now) {
    LocalDate here = viewer.dateOf(now);
    LocalDate there = now.atZone(viewer.flightZone()).toLocalDate();
    return there.isAfter(here) ? there : here;
  }

  private static Instant endOf(LocalDate day, Viewer viewer) {
    return day.plusDays(1).atStartOfDay(viewer.zone()).toInstant().minusSeconds(1);
  }
}
