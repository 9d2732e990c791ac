package trestle.apron;

import java.time.LocalDate;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;

/**
 * One line of a planned trip: a flight, or several of one day.
 *
 * @param number from 1, in the order of flying
 * @param seconds time in service
 * @param cycles null where not stated
 */
record Leg(int number, LocalDate on, long seconds, long landings, Long cycles) {
  static final Counter CYCLES = new Counter("cycles");

  Leg {
    if (seconds <= 0 || landings < 0 || cycles != null && cycles < 0) {
      throw new IllegalArgumentException("a leg takes some time, and nothing is taken back");
    }
  }

  /** What it adds to a counter, or {@link Scale#UNKNOWN}: never guessed. */
  long adds(Counter counter) {
    if (counter.equals(Counter.HOURS)) {
      return seconds;
    }
    if (counter.equals(Counter.LANDINGS)) {
      return landings;
    }
    return counter.equals(CYCLES) && cycles != null ? cycles : Scale.UNKNOWN;
  }
}
