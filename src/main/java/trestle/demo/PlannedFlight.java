package trestle.demo;

import java.time.Duration;
import java.time.Instant;

/**
 * One flight of the story.
 *
 * @param day the operator's local date of it, as an epoch day
 * @param turn a number of its own, from which what varies by flight (pilot, fuel, remarks) is taken
 */
record PlannedFlight(
    long day, Instant takeOff, int minutes, String from, String to, int landings, int turn) {

  Instant landing() {
    return takeOff.plus(Duration.ofMinutes(minutes));
  }

  PlannedFlight longerBy(int more) {
    return new PlannedFlight(day, takeOff, minutes + more, from, to, landings, turn);
  }
}
