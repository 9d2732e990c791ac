package trestle.reckoning;

import java.time.LocalDate;

/**
 * What one entry of a rule reckons to: a {@link LimitReckoning}, or a group's {@link Reckoning}.
 */
public sealed interface Outcome permits LimitReckoning, Reckoning {

  State state();

  /** Whether nothing may be flown on it; false while that is not known (see {@link #state()}). */
  boolean spent();

  /** The day on which it is expected to fall due, or null for never or not known. */
  LocalDate projectedOn();

  /** Whether some limit's date is missing only because no rate of use is known for its counter. */
  boolean lacksRate();
}
