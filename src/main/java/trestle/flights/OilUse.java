package trestle.flights;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import trestle.reckoning.Scale;

/**
 * What one engine used of its oil between two readings of its dipstick: the level after the last
 * addition less the level before this one, over the hours between.
 *
 * @param used null where an oil change, or a level not read, began the series anew; negative where
 *     the level rose with nothing added
 * @param seconds run between the readings, or {@link Scale#UNKNOWN}
 */
public record OilUse(Level at, BigDecimal used, long seconds) {
  private static final BigDecimal SECONDS_OF_AN_HOUR = BigDecimal.valueOf(3_600);

  /**
   * One reading of a dipstick.
   *
   * @param units what the engine had run then in seconds, or {@link Scale#UNKNOWN}
   * @param before the level before anything was put in, or null when it was not read
   * @param added nothing put in is zero
   * @param changed the oil was changed here: the series begins anew
   */
  public record Level(
      long epochSecond, long units, BigDecimal before, BigDecimal added, boolean changed) {

    /** The level afterwards, or null where it is not known. */
    public BigDecimal after() {
      return before == null ? null : before.add(added);
    }
  }

  /** From readings in their order; the first one has nothing before it. */
  public static List<OilUse> series(List<Level> levels) {
    List<OilUse> series = new ArrayList<>();
    Level last = null;
    for (Level level : levels) {
      series.add(between(last, level));
      last = level.before() == null && !level.changed() ? last(last, level) : level;
    }
    return series;
  }

  /** Oil put in without a reading of the level: what was after it is not known. */
  private static Level last(Level last, Level level) {
    return level.added().signum() == 0 ? last : level;
  }

  private static OilUse between(Level last, Level level) {
    boolean begins =
        last == null || level.changed() || last.after() == null || level.before() == null;
    if (begins) {
      return new OilUse(level, null, Scale.UNKNOWN);
    }
    boolean known = last.units() != Scale.UNKNOWN && level.units() != Scale.UNKNOWN;
    return new OilUse(
        level,
        last.after().subtract(level.before()),
        known ? level.units() - last.units() : Scale.UNKNOWN);
  }

  /** Used an hour, to three places, rounded up; null where it can't be told. */
  public BigDecimal perHour() {
    if (used == null || seconds == Scale.UNKNOWN || seconds <= 0) {
      return null;
    }
    return used.multiply(SECONDS_OF_AN_HOUR)
        .divide(BigDecimal.valueOf(seconds), 3, RoundingMode.CEILING);
  }

  /** The level rose though nothing was put in: a reading of the wrong side, or something else. */
  public boolean rose() {
    return used != null && used.signum() < 0;
  }

  /** Whether it used more than a limit an hour, compared exactly; never where nothing is known. */
  public boolean exceeds(BigDecimal limitPerHour) {
    if (limitPerHour == null || used == null || seconds == Scale.UNKNOWN || used.signum() <= 0) {
      return false;
    }
    BigDecimal allowed =
        limitPerHour
            .multiply(BigDecimal.valueOf(seconds))
            .divide(SECONDS_OF_AN_HOUR, MathContext.DECIMAL128);
    return used.compareTo(allowed) > 0;
  }
}
