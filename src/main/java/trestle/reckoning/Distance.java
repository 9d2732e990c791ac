package trestle.reckoning;

/** How far: an {@link Amount} along a counter, or an {@link Interval} of the calendar. */
public sealed interface Distance permits Amount, Interval {

  /** The point this far after another, so many times over, counted in one step. */
  long after(long point, long times);

  /** The point this far before another. */
  long before(long point);

  /** The largest number of times that fits from one point to a later one, found by division. */
  long timesBetween(long from, long to);

  boolean isZero();

  /** Whether this is less than another of the same kind; a month counts as 30 days here. */
  boolean isSmallerThan(Distance other);

  default long after(long point) {
    return after(point, 1);
  }
}
