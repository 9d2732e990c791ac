package trestle.reckoning;

import java.time.LocalDate;
import java.util.Locale;
import java.util.Objects;

/**
 * One limit of a rule. The amounts of a limit are of its scale: {@link Amount}s in the counter's
 * unit, or {@link Interval}s on the calendar.
 */
public sealed interface Limit extends Entry {

  /** The origin that doing the work moves. */
  String LAST_DONE = "last-done";

  /** From where the next interval counts when the work was done late. */
  enum Late {
    RESTART,
    KEEP_SCHEDULE;

    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** What shapes a calendar due date: nothing more, or the end of its month. */
  enum Ends {
    ANNIVERSARY,
    MONTH_END;

    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** A limit with a point of its own: everything but {@link With}. */
  sealed interface Measured extends Limit permits Every, Fixed {
    Scale scale();

    /** From how much remaining it is soon, or null for never. */
    Distance soon();

    /** How far past due it may still be used, or null for not at all. */
    Distance tolerance();

    /** The last point at which it may be used, when due at the given one. */
    default long lastGood(long due) {
      return tolerance() == null ? due : tolerance().after(due);
    }
  }

  /**
   * Due again and again, or once from a named origin.
   *
   * @param every more than nothing
   * @param ends month-end only on the calendar with whole months or years
   * @param from {@link #LAST_DONE} or a named origin
   * @param late keep-schedule only from last done
   * @param window done within this much of the due point, the next interval counts from the due
   *     point; null for none; only from last done, smaller than every
   */
  record Every(
      Scale scale,
      Distance every,
      Ends ends,
      String from,
      Distance soon,
      Distance tolerance,
      Late late,
      Distance window)
      implements Measured {

    public Every {
      check(isOf(scale, every) && !every.isZero(), "every must be more than nothing, of the scale");
      checkOptional(scale, soon, tolerance, window);
      check(
          ends == Ends.ANNIVERSARY || every instanceof Interval period && period.isWholeMonths(),
          "month-end goes only with whole months or years");
      check(from.equals(LAST_DONE) || Counter.isName(from), "from must be a name");
      check(
          from.equals(LAST_DONE) || late == Late.RESTART && window == null,
          "late and window go only with last-done");
      check(window == null || window.isSmallerThan(every), "window must be smaller than every");
    }

    /** Every so much, from when the work was last done. */
    public static Every of(Counter counter, String every) {
      return plain(counter, counter.amount(every));
    }

    public static Every of(Interval every) {
      return plain(Calendar.DAYS, every);
    }

    private static Every plain(Scale scale, Distance every) {
      return new Every(scale, every, Ends.ANNIVERSARY, LAST_DONE, null, null, Late.RESTART, null);
    }

    public Every toMonthEnd() {
      return new Every(scale, every, Ends.MONTH_END, from, soon, tolerance, late, window);
    }

    public Every from(String origin) {
      return new Every(scale, every, ends, origin, soon, tolerance, late, window);
    }

    public Every soon(String distance) {
      return new Every(scale, every, ends, from, distance(distance), tolerance, late, window);
    }

    public Every tolerance(String distance) {
      return new Every(scale, every, ends, from, soon, distance(distance), late, window);
    }

    public Every keepSchedule() {
      return new Every(scale, every, ends, from, soon, tolerance, Late.KEEP_SCHEDULE, window);
    }

    public Every window(String distance) {
      return new Every(scale, every, ends, from, soon, tolerance, late, distance(distance));
    }

    private Distance distance(String text) {
      return scale instanceof Counter counter ? counter.amount(text) : Interval.parse(text);
    }

    public boolean fromLastDone() {
      return from.equals(LAST_DONE);
    }

    /** Whether each doing is the anchor of the next, early or late. */
    boolean restartsAlways() {
      return late == Late.RESTART && window == null;
    }

    /** The k-th scheduled point, counted from the anchor in one step. */
    long scheduled(long anchor, long k) {
      return ends == Ends.MONTH_END
          ? ((Interval) every).afterToMonthEnd(anchor, k)
          : every.after(anchor, k);
    }

    /** The largest k for which the k-th scheduled point is not after the given one. */
    long timesBetween(long anchor, long point) {
      long k = every.timesBetween(anchor, point);
      while (scheduled(anchor, k) > point) {
        k--;
      }
      return k;
    }
  }

  /** Due at one point that nothing moves. */
  record Fixed(Scale scale, long point, Distance soon, Distance tolerance) implements Measured {

    public Fixed {
      checkOptional(scale, soon, tolerance, null);
      check(scale == Calendar.DAYS || point >= 0, "a total must not be negative");
    }

    public static Fixed at(Counter counter, String total) {
      return new Fixed(counter, counter.unit().parse(total), null, null);
    }

    public static Fixed on(LocalDate day) {
      return new Fixed(Calendar.DAYS, day.toEpochDay(), null, null);
    }
  }

  /**
   * Due when another requirement is next done, such as a deferral until the next inspection.
   *
   * @param requirement the name under which the caller hands in that requirement's {@link
   *     Companion}
   */
  record With(String requirement) implements Limit {

    public With {
      Objects.requireNonNull(requirement, "requirement");
      check(!requirement.isBlank(), "with must name a requirement");
    }
  }

  private static void checkOptional(
      Scale scale, Distance soon, Distance tolerance, Distance window) {
    check(
        (soon == null || isOf(scale, soon))
            && (tolerance == null || isOf(scale, tolerance))
            && (window == null || isOf(scale, window)),
        "amounts must be of the limit's scale and not negative");
  }

  private static boolean isOf(Scale scale, Distance distance) {
    return scale instanceof Counter counter
        ? distance instanceof Amount amount
            && amount.unit() == counter.unit()
            && amount.units() >= 0
        : distance instanceof Interval;
  }

  private static void check(boolean holds, String sentence) {
    if (!holds) {
      throw new IllegalArgumentException(sentence);
    }
  }
}
