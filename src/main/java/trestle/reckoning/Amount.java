package trestle.reckoning;

/**
 * A number of units of a counter: seconds where it counts in hours, else a count. Negative only as
 * a difference (what remains once past due).
 */
public record Amount(long units, Unit unit) implements Distance {

  public static Amount of(Hours hours) {
    return new Amount(hours.seconds(), Unit.HOURS);
  }

  public static Amount count(long count) {
    return new Amount(count, Unit.COUNT);
  }

  /** Reads an amount that is not negative and at most 10,000,000 (hours or a count). */
  public static Amount parse(String text, Unit unit) {
    return new Amount(unit.parse(text), unit);
  }

  /** The amount as hours, where it is in hours. */
  public Hours hours() {
    if (unit != Unit.HOURS) {
      throw new IllegalStateException("not in hours: " + this);
    }
    return new Hours(units);
  }

  @Override
  public long after(long point, long times) {
    return point + times * units;
  }

  @Override
  public long before(long point) {
    return point - units;
  }

  @Override
  public long timesBetween(long from, long to) {
    return Math.floorDiv(to - from, units);
  }

  @Override
  public boolean isZero() {
    return units == 0;
  }

  @Override
  public boolean isSmallerThan(Distance other) {
    return units < ((Amount) other).units;
  }

  /** The exact text, which {@link #parse} reads back. */
  @Override
  public String toString() {
    return unit.show(units);
  }
}
