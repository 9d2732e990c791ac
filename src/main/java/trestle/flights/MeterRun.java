package trestle.flights;

import java.util.List;
import trestle.fleet.Fleet.MeterChangeSheet;

/**
 * How far a meter ran between two readings, through its replacements and roll-overs, in seconds.
 *
 * @param forward what it ran
 * @param backward by how much it fell somewhere, which no meter does
 */
record MeterRun(long forward, long backward) {

  /** From a reading at one moment to a reading at another, both moments' changes included. */
  static MeterRun between(
      long fromReading,
      long fromMoment,
      long toReading,
      long toMoment,
      List<MeterChangeSheet> all) {
    return run(fromReading, fromMoment - 1, toReading, toMoment + 1, all);
  }

  /** From take-off to landing: only a change in flight, strictly between, falls into it. */
  static MeterRun during(Leg leg, List<MeterChangeSheet> all) {
    return run(leg.meterOut(), leg.takeOff(), leg.meterIn(), leg.landing(), all);
  }

  private static MeterRun run(
      long fromReading, long after, long toReading, long before, List<MeterChangeSheet> changes) {
    MeterRun run = new MeterRun(0, 0);
    long reading = fromReading;
    for (MeterChangeSheet change : changes) {
      long at = change.at().getEpochSecond();
      if (at > after && at < before) {
        // An old meter whose last reading nobody took: what it ran can't be told from readings.
        run = change.offReading() == null ? run : run.plus(change.offReading() - reading);
        reading = change.onReading();
      }
    }
    return run.plus(toReading - reading);
  }

  private MeterRun plus(long moved) {
    return new MeterRun(forward + Math.max(0, moved), backward + Math.max(0, -moved));
  }
}
