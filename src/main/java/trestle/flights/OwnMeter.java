package trestle.flights;

import java.time.Instant;
import java.util.List;
import trestle.fleet.ComponentHistory.MeterReading;
import trestle.reckoning.Scale;

/**
 * What a component's own meter says it ran since its first reading, where it was read twice at
 * least: one reading says nothing of how much ran. Between two readings, and after the last, it is
 * estimated: it grew as the hours of its aircraft did.
 */
final class OwnMeter {

  /** The hours that its aircraft flew from one moment to another, or {@link Scale#UNKNOWN}. */
  interface Flown {
    long between(Instant from, Instant to);
  }

  private final List<MeterReading> readings;
  private final long[] run;
  private final Flown flown;

  /**
   * @param readings one at least, the oldest first
   */
  OwnMeter(List<MeterReading> readings, Flown flown) {
    this.readings = readings;
    this.run = run(readings);
    this.flown = flown;
  }

  /** What it had run by each reading since the first, through the meters that were replaced. */
  private static long[] run(List<MeterReading> readings) {
    long[] run = new long[readings.size()];
    for (int i = 1; i < run.length; i++) {
      long grown = readings.get(i).reading() - readings.get(i - 1).goesOnFrom();
      run[i] = run[i - 1] + Math.max(0, grown);
    }
    return run;
  }

  /** When it was first read. */
  Instant begins() {
    return readings.get(0).at();
  }

  /** Whether it says what ran up to a moment. */
  boolean tellsBy(Instant moment) {
    return readings.size() > 1 && !readings.get(0).at().isAfter(moment);
  }

  /** Seconds or a count from the first reading to a moment. */
  long gathered(Instant moment) {
    int last = lastBy(moment);
    if (last < 0) {
      return 0;
    }
    return run[last] + grown(last, moment);
  }

  /** Whether some of that is not read but reckoned. */
  boolean isEstimatedAt(Instant moment) {
    int last = lastBy(moment);
    return last >= 0 && flown.between(readings.get(last).at(), moment) != 0;
  }

  /** Along the stretch that the moment lies in; past the last reading, along the one before it. */
  private long grown(int last, Instant moment) {
    int from = last + 1 < readings.size() ? last : last - 1;
    if (from < 0) {
      return 0;
    }
    long all = flown.between(readings.get(from).at(), readings.get(from + 1).at());
    long some = flown.between(readings.get(last).at(), moment);
    if (all <= 0 || some == Scale.UNKNOWN) {
      return 0;
    }
    return (run[from + 1] - run[from]) * some / all;
  }

  private int lastBy(Instant moment) {
    int last = readings.size() - 1;
    while (last >= 0 && readings.get(last).at().isAfter(moment)) {
      last--;
    }
    return last;
  }
}
