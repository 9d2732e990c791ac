package trestle.apron;

import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.standing.DueItem;

/**
 * A planned trip.
 *
 * @param legs in the order of flying, at least one
 * @param kinds what it is beside a flight: {@code hire}, {@code IFR}, {@code night} …
 */
record Trip(List<Leg> legs, Set<String> kinds) {

  Trip {
    legs = List.copyOf(legs);
    kinds = Set.copyOf(kinds);
    if (legs.isEmpty()) {
      throw new IllegalArgumentException("a trip has a leg");
    }
    LocalDate last = LocalDate.MIN;
    for (int i = 0; i < legs.size(); i++) {
      if (legs.get(i).number() != i + 1 || legs.get(i).on().isBefore(last)) {
        throw new IllegalArgumentException("legs are numbered from one and follow one another");
      }
      last = legs.get(i).on();
    }
  }

  /** What the first so many legs add to a counter, or {@link Scale#UNKNOWN}. */
  long used(Counter counter, int first) {
    long used = 0;
    for (Leg leg : legs.subList(0, first)) {
      long adds = leg.adds(counter);
      if (adds == Scale.UNKNOWN) {
        return Scale.UNKNOWN;
      }
      used = Math.addExact(used, adds);
    }
    return used;
  }

  /** Whether what forbids this may forbid the trip. */
  boolean isForbiddenBy(String forbids) {
    return forbids.equals(DueItem.ANY_FLIGHT) || kinds.contains(forbids);
  }
}
