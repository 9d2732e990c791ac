package trestle.reckoning;

import java.time.LocalDate;

/**
 * What one limit reckons to.
 *
 * @param overrun whether the latest doing came after due and tolerance, so that the next due point
 *     is provisional until an engineer files from where it counts; only from last done
 * @param extended whether {@code due} is a granted extension's point and not the scheduled one
 * @param due on the limit's scale (seconds, a count, an epoch day); {@link Scale#UNKNOWN} where not
 *     known
 * @param remaining due minus now, negative once past; {@link Scale#UNKNOWN} where not known
 */
public record LimitReckoning(
    Limit limit,
    State state,
    boolean spent,
    boolean overrun,
    boolean extended,
    long due,
    long remaining,
    LocalDate projectedOn,
    boolean lacksRate)
    implements Outcome {

  static LimitReckoning unknown(Limit limit, boolean overrun, boolean extended, long due) {
    return new LimitReckoning(
        limit, State.UNKNOWN, false, overrun, extended, due, Scale.UNKNOWN, null, false);
  }

  /** The counter it is by, or null for a limit by the calendar or with other work. */
  public Counter counter() {
    return limit instanceof Limit.Measured measured && measured.scale() instanceof Counter counter
        ? counter
        : null;
  }

  /** The total at which it is due; null where it is not by use or not known. */
  public Amount dueAt() {
    return amount(due);
  }

  /** What is left, negative once past; null where it is not by use or not known. */
  public Amount left() {
    return amount(remaining);
  }

  /** The date on which it is due, the last day it is good; null where there is none. */
  public LocalDate dueOn() {
    return isByCalendar() && due != Scale.UNKNOWN ? LocalDate.ofEpochDay(due) : null;
  }

  /** The days left, negative once past; null where it is not by the calendar or not known. */
  public Long daysLeft() {
    return isByCalendar() && remaining != Scale.UNKNOWN ? remaining : null;
  }

  public boolean isByCalendar() {
    return limit instanceof Limit.Measured measured && measured.scale() == Calendar.DAYS;
  }

  private Amount amount(long units) {
    Counter counter = counter();
    return counter == null || units == Scale.UNKNOWN ? null : new Amount(units, counter.unit());
  }
}
