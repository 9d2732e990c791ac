package trestle.flights;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Fleet.OpeningSheet;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.reckoning.Usage;
import trestle.reckoning.Utilisation;

/**
 * What one aircraft had used by any moment of a view. A moment is a place in the sequence of
 * flights: those that landed at or before it came first. A counter that was never opened, or that a
 * flight did not give, is unknown, never zero; so is every total before its counter was opened.
 */
public final class UsageLine {
  /** The days whose mean is the rate of the projection. */
  public static final int MEAN_OVER_DAYS = 90;

  private static final Instant END = Instant.MAX;

  private final UUID aircraftId;
  private final StepArrays steps;
  private final Map<Counter, List<OpeningSheet>> openings = new HashMap<>();
  private final Map<Counter, BigDecimal> statedRates;
  private final Instant lastFiledAt;

  UsageLine(
      UUID aircraftId,
      StepArrays steps,
      List<OpeningSheet> openings,
      Map<Counter, BigDecimal> statedRates,
      Instant lastFiledAt) {
    this.aircraftId = aircraftId;
    this.steps = steps;
    this.statedRates = statedRates;
    this.lastFiledAt = lastFiledAt;
    for (OpeningSheet opening : openings) {
      this.openings.computeIfAbsent(opening.counter(), counter -> new ArrayList<>()).add(opening);
    }
  }

  public UUID aircraftId() {
    return aircraftId;
  }

  /** The counters that this aircraft counts: those ever opened, known or not. */
  public Set<Counter> counters() {
    return new HashSet<>(openings.keySet());
  }

  /** Seconds or a count at a moment, or {@link Scale#UNKNOWN}. */
  public long unitsAt(Instant moment, Counter counter) {
    OpeningSheet holds = null;
    for (OpeningSheet opening : openings.getOrDefault(counter, List.of())) {
      if (!opening.at().isAfter(moment)) {
        holds = opening;
      }
    }
    if (holds == null || holds.amount() == null) {
      return Scale.UNKNOWN;
    }
    long added = added(counter, holds.at(), moment);
    return added == Scale.UNKNOWN ? Scale.UNKNOWN : holds.amount() + added;
  }

  /** Seconds or a count at a moment; empty when not known. */
  public OptionalLong totalAt(Instant moment, String counter) {
    long units = unitsAt(moment, new Counter(counter));
    return units == Scale.UNKNOWN ? OptionalLong.empty() : OptionalLong.of(units);
  }

  /** Every known total at a moment. */
  public Usage usageAt(Instant moment) {
    Map<Counter, Long> known = new HashMap<>();
    for (Counter counter : openings.keySet()) {
      long units = unitsAt(moment, counter);
      if (units != Scale.UNKNOWN) {
        known.put(counter, units);
      }
    }
    return Usage.ofUnits(known);
  }

  /** Every known total at the end of the view. */
  public Usage total() {
    return usageAt(END);
  }

  /**
   * What the flights that landed after one moment, and by another, added to a counter; {@link
   * Scale#UNKNOWN} where the aircraft did not count it all that time. Hours and landings are given
   * by every flight.
   */
  public long gathered(Counter counter, Instant after, Instant by) {
    boolean always = counter.equals(Counter.HOURS) || counter.equals(Counter.LANDINGS);
    boolean counted =
        always
            || openings.getOrDefault(counter, List.of()).stream()
                .anyMatch(opening -> !opening.at().isAfter(after));
    return counted ? added(counter, after, by) : Scale.UNKNOWN;
  }

  /** The landings after one moment, and by another, in order. */
  public List<Instant> landings(Instant after, Instant by) {
    int to = index(by);
    List<Instant> landings = new ArrayList<>();
    for (int i = after.equals(Instant.MIN) ? 0 : index(after); i < to; i++) {
      landings.add(Instant.ofEpochSecond(steps.landedAt(i)));
    }
    return landings;
  }

  /** The last landing at or before a moment, and the first after it; null where there is none. */
  record Around(Instant before, Instant after) {}

  Around around(Instant moment) {
    int next = index(moment);
    return new Around(
        next == 0 ? null : Instant.ofEpochSecond(steps.landedAt(next - 1)),
        next == steps.count() ? null : Instant.ofEpochSecond(steps.landedAt(next)));
  }

  /** How many flights there are in the view. */
  public int flights() {
    return steps.count();
  }

  /** The day of the first flight of the view. */
  public Optional<LocalDate> firstDay() {
    return steps.count() == 0
        ? Optional.empty()
        : Optional.of(LocalDate.ofEpochDay(steps.firstDay()));
  }

  /** The last landing of the view: how old the hours are. */
  public Optional<Instant> lastLanding() {
    return steps.count() == 0
        ? Optional.empty()
        : Optional.of(Instant.ofEpochSecond(steps.lastLanding()));
  }

  /** When the flight with the last landing was filed. */
  public Optional<Instant> lastFiledAt() {
    return Optional.ofNullable(lastFiledAt);
  }

  /**
   * The mean a day over the last 90 days with today, or since the first flight's day when that is
   * less: hours, or a count, to four places. Empty with no flight, or when a flight did not say.
   */
  public Optional<BigDecimal> meanPerDay(Counter counter, LocalDate today) {
    if (steps.count() == 0 || steps.firstDay() > today.toEpochDay()) {
      return Optional.empty();
    }
    int end = (int) today.toEpochDay();
    int begin = Math.max(end - MEAN_OVER_DAYS + 1, steps.firstDay());
    long added = steps.added(counter, steps.beforeDay(begin), steps.beforeDay(end + 1));
    if (added == Scale.UNKNOWN) {
      return Optional.empty();
    }
    long days = (end - begin + 1L) * (counter.inHours() ? 3600 : 1);
    return Optional.of(
        BigDecimal.valueOf(added).divide(BigDecimal.valueOf(days), 4, RoundingMode.HALF_UP));
  }

  /** What a person has stated instead of the mean. */
  public Optional<BigDecimal> statedPerDay(Counter counter) {
    return Optional.ofNullable(statedRates.get(counter));
  }

  /** The rate a day that the projection uses: stated, or the mean of what was flown. */
  public Optional<BigDecimal> perDay(Counter counter, LocalDate today) {
    return statedPerDay(counter).or(() -> meanPerDay(counter, today));
  }

  /** The rates of every counter that has one. */
  public Utilisation utilisation(LocalDate today) {
    Set<Counter> counters = steps.counters();
    counters.addAll(statedRates.keySet());
    Map<Counter, Long> rates = new HashMap<>();
    for (Counter counter : counters) {
      perDay(counter, today)
          .ifPresent(rate -> rates.put(counter, rate.movePointRight(4).longValueExact()));
    }
    return Utilisation.ofTenThousandths(rates);
  }

  private long added(Counter counter, Instant after, Instant by) {
    return steps.added(counter, index(after), index(by));
  }

  private int index(Instant moment) {
    return moment.equals(END) ? steps.count() : steps.landedBy(moment.getEpochSecond());
  }
}
