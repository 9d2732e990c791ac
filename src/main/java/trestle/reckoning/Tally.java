package trestle.reckoning;

import java.util.Arrays;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** A value for each of a few counters; a plain array is searched faster than any map. */
final class Tally {

  private final Counter[] counters;
  private final long[] values;

  Tally(Map<Counter, Long> values) {
    SortedMap<Counter, Long> sorted = new TreeMap<>(values);
    this.counters = sorted.keySet().toArray(Counter[]::new);
    this.values = sorted.values().stream().mapToLong(Long::longValue).toArray();
  }

  /** The counter's value, or {@link Scale#UNKNOWN}. */
  long of(Counter counter) {
    for (int i = 0; i < counters.length; i++) {
      if (counters[i] == counter || counters[i].equals(counter)) {
        return values[i];
      }
    }
    return Scale.UNKNOWN;
  }

  SortedMap<Counter, Long> toMap() {
    SortedMap<Counter, Long> map = new TreeMap<>();
    for (int i = 0; i < counters.length; i++) {
      map.put(counters[i], values[i]);
    }
    return map;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Tally tally
        && Arrays.equals(counters, tally.counters)
        && Arrays.equals(values, tally.values);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(counters) * 31 + Arrays.hashCode(values);
  }
}
