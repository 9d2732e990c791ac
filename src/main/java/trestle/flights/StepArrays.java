package trestle.flights;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import trestle.reckoning.Counter;

/**
 * The steps of one aircraft in the order of landing, summed up: {@code sums[i]} is what the first i
 * flights added, and {@code unsaid[i]} how many of them did not say.
 */
final class StepArrays {
  static final Counter FLIGHT_HOURS = new Counter("flight-hours");
  static final Counter CYCLES = new Counter("cycles");
  static final StepArrays NONE = of(List.of());

  /** One counter's running sums. */
  record Track(long[] sums, int[] unsaid) {}

  private final long[] landedAt;
  private final int[] days;
  private final Map<Counter, Track> tracks;

  private StepArrays(long[] landedAt, int[] days, Map<Counter, Track> tracks) {
    this.landedAt = landedAt;
    this.days = days;
    this.tracks = tracks;
  }

  static StepArrays of(
      Long[] landedAt,
      Integer[] days,
      Long[] hours,
      Long[] landings,
      Long[] flightHours,
      Long[] cycles,
      List<Map<Counter, Long>> others) {
    Map<Counter, Track> tracks = new HashMap<>();
    tracks.put(Counter.HOURS, track(hours));
    tracks.put(Counter.LANDINGS, track(landings));
    if (flightHours != null) {
      tracks.put(FLIGHT_HOURS, track(flightHours));
    }
    if (cycles != null) {
      tracks.put(CYCLES, track(cycles));
    }
    if (others != null) {
      others(tracks, others);
    }
    long[] moments = new long[landedAt.length];
    int[] on = new int[landedAt.length];
    for (int i = 0; i < moments.length; i++) {
      moments[i] = landedAt[i];
      on[i] = days[i];
    }
    return new StepArrays(moments, on, tracks);
  }

  static StepArrays of(List<Step> steps) {
    List<Step> inOrder = new ArrayList<>(steps);
    inOrder.sort(java.util.Comparator.comparingLong(Step::landedAt));
    return of(
        inOrder.stream().map(Step::landedAt).toArray(Long[]::new),
        inOrder.stream().map(Step::day).toArray(Integer[]::new),
        inOrder.stream().map(Step::hours).toArray(Long[]::new),
        inOrder.stream().map(step -> (long) step.landings()).toArray(Long[]::new),
        inOrder.stream().map(Step::flightHours).toArray(Long[]::new),
        inOrder.stream()
            .map(step -> step.cycles() == null ? null : Long.valueOf(step.cycles()))
            .toArray(Long[]::new),
        inOrder.stream().map(Step::others).toList());
  }

  int count() {
    return landedAt.length;
  }

  /** Seconds since 1970 of the last landing. */
  long lastLanding() {
    return landedAt[landedAt.length - 1];
  }

  /** The epoch day of the first flight. */
  int firstDay() {
    return days[0];
  }

  /** Seconds since 1970 at which a flight landed. */
  long landedAt(int index) {
    return landedAt[index];
  }

  /** How many flights had landed at or before a moment. */
  int landedBy(long moment) {
    int low = 0;
    int high = landedAt.length;
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (landedAt[middle] <= moment) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return low;
  }

  /** How many flights landed before an epoch day began. */
  int beforeDay(int day) {
    int at = Arrays.binarySearch(days, day);
    if (at < 0) {
      return -at - 1;
    }
    while (at > 0 && days[at - 1] == day) {
      at--;
    }
    return at;
  }

  /** The counters that any flight gave. */
  Set<Counter> counters() {
    return new HashSet<>(tracks.keySet());
  }

  /**
   * What the flights from one index to another added to a counter, or {@link
   * trestle.reckoning.Scale#UNKNOWN} where one of them did not say.
   */
  long added(Counter counter, int from, int to) {
    if (from >= to) {
      return 0;
    }
    Track track = tracks.get(counter);
    if (track == null || track.unsaid[to] > track.unsaid[from]) {
      return trestle.reckoning.Scale.UNKNOWN;
    }
    return track.sums[to] - track.sums[from];
  }

  private static Track track(Long[] amounts) {
    long[] sums = new long[amounts.length + 1];
    int[] unsaid = new int[amounts.length + 1];
    for (int i = 0; i < amounts.length; i++) {
      Long amount = amounts[i];
      sums[i + 1] = sums[i] + (amount == null ? 0 : amount);
      unsaid[i + 1] = unsaid[i] + (amount == null ? 1 : 0);
    }
    return new Track(sums, unsaid);
  }

  private static void others(Map<Counter, Track> tracks, List<Map<Counter, Long>> others) {
    Set<Counter> counters = new HashSet<>();
    others.forEach(each -> counters.addAll(each.keySet()));
    for (Counter counter : counters) {
      tracks.put(
          counter, track(others.stream().map(each -> each.get(counter)).toArray(Long[]::new)));
    }
  }
}
