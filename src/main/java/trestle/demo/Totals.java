package trestle.demo;

import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import trestle.fleet.Rounding;

/**
 * What one aircraft's hours and landings are at any moment of the story, reckoned back from what
 * they are today.
 *
 * @param metered whether its hours are those of a meter that counts in tenths
 * @param engines the positions of its engines
 */
record Totals(
    FlightPlan plan, long secondsToday, long landingsToday, boolean metered, List<String> engines) {

  static Map<String, Totals> all(List<AircraftStory> stories) {
    Map<String, Totals> totals = new HashMap<>();
    for (SeedFile.Line line : SeedFile.lines("aircraft.csv")) {
      for (AircraftStory story : stories) {
        if (story.registration().equals(line.text("registration"))) {
          boolean metered = line.text("hours_basis").equals("meter");
          totals.put(
              story.registration(),
              new Totals(
                  story.plan(),
                  line.minutes("hours_today") * 60,
                  line.count("landings_today"),
                  metered,
                  line.count("engines") == 1
                      ? List.of("engine")
                      : List.of("engine-1", "engine-2")));
        }
      }
    }
    return totals;
  }

  /** What one flight adds, in seconds. */
  long of(PlannedFlight flight) {
    long seconds = flight.minutes() * 60L;
    return metered ? Rounding.TENTHS.of(seconds) : seconds;
  }

  /** Seconds flown after a moment. */
  long flownSince(Instant moment) {
    return plan.flights().stream()
        .filter(flight -> flight.landing().isAfter(moment))
        .mapToLong(this::of)
        .sum();
  }

  long secondsAt(Instant moment) {
    return secondsToday - flownSince(moment);
  }

  long landingsAt(Instant moment) {
    return landingsToday
        - plan.flights().stream()
            .filter(flight -> flight.landing().isAfter(moment))
            .mapToLong(PlannedFlight::landings)
            .sum();
  }
}
