package trestle.flights;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.ComponentEventKind;
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentHistory.Event;
import trestle.fleet.ComponentHistory.MeterReading;
import trestle.fleet.ComponentHistory.Opening;
import trestle.fleet.ComponentHistory.Overhaul;
import trestle.fleet.Fitting;
import trestle.fleet.Placement;
import trestle.reckoning.Counter;
import trestle.reckoning.Reading;
import trestle.reckoning.Scale;
import trestle.reckoning.Usage;
import trestle.reckoning.Utilisation;

/**
 * What one component had run by any moment of a view: what it had run when these records began, and
 * what its aircraft gathered during each fitment since.
 *
 * <p>Each counter is told along an {@link Axis}. Where time since new is known the axis is time
 * since new. Where only time since overhaul is known, the axis is time since that overhaul, so that
 * "since overhaul" can be reckoned while "since new" stays unknown; and where neither is, it begins
 * at zero with these records, so that at least "since last done here" can.
 */
public final class ComponentLine {

  /** Where a counter's axis has its zero. */
  public enum Axis {
    NEW,
    OVERHAUL,
    RECORDS
  }

  private final ComponentHistory history;
  private final Map<UUID, UsageLine> aircraft;
  private final Map<Counter, Opening> openings = new HashMap<>();
  private final List<Overhaul> overhauls;
  private final Event restart;
  private final Map<Counter, OwnMeter> meters = new HashMap<>();

  /**
   * @param aircraft the lines of every aircraft it was ever fitted to
   */
  ComponentLine(ComponentHistory history, Map<UUID, UsageLine> aircraft) {
    this.history = history;
    this.aircraft = aircraft;
    history.openings().forEach(opening -> openings.put(opening.counter(), opening));
    this.overhauls = overhauls(history);
    this.restart =
        history.events().stream().filter(Event::restarts).reduce((one, next) -> next).orElse(null);
    readMeters();
  }

  private void readMeters() {
    Map<Counter, List<MeterReading>> byCounter = new HashMap<>();
    for (MeterReading reading : history.meterReadings()) {
      Opening opening = openings.get(reading.counter());
      if (opening != null && !reading.at().isBefore(opening.at())) {
        byCounter.computeIfAbsent(reading.counter(), id -> new ArrayList<>()).add(reading);
      }
    }
    byCounter.forEach(
        (counter, readings) ->
            meters.put(
                counter, new OwnMeter(readings, (from, to) -> gathered(Counter.HOURS, from, to))));
  }

  /** A rebuild is an overhaul, and more. */
  private static List<Overhaul> overhauls(ComponentHistory history) {
    List<Overhaul> all = new ArrayList<>(history.overhauls());
    for (Event event : history.events()) {
      if (event.kind() == ComponentEventKind.REBUILT) {
        all.add(new Overhaul(event.id(), event.at(), event.on(), event.reference()));
      }
    }
    all.sort(Comparator.comparing(Overhaul::at));
    return all;
  }

  public ComponentHistory history() {
    return history;
  }

  public Set<Counter> counters() {
    return new HashSet<>(openings.keySet());
  }

  /** What the axis of a counter begins with; empty for a counter that was never opened. */
  public Optional<Axis> axis(Counter counter) {
    Opening opening = openings.get(counter);
    if (opening == null) {
      return Optional.empty();
    }
    if (opening.sinceNew() != null) {
      return Optional.of(Axis.NEW);
    }
    return Optional.of(opening.sinceOverhaul() != null ? Axis.OVERHAUL : Axis.RECORDS);
  }

  /**
   * Whether totals of this counter are since new: only then may a fixed point be compared. After a
   * rebuild that began it again they run on from before, so that the old history stays.
   */
  public boolean isSinceNew(Counter counter) {
    return restart == null && axis(counter).filter(Axis.NEW::equals).isPresent();
  }

  /** Whether the total at the end of the view is partly estimated, by its own meter's readings. */
  public boolean isEstimated(Counter counter) {
    OwnMeter meter = meters.get(counter);
    return meter != null
        && (meter.isEstimatedAt(Instant.MAX)
            || gathered(counter, openings.get(counter).at(), meter.begins()) != 0);
  }

  /** Seconds or a count along the counter's axis, or {@link Scale#UNKNOWN}. */
  public long unitsAt(Instant moment, Counter counter) {
    Opening opening = openings.get(counter);
    if (opening == null || moment.isBefore(opening.at())) {
      return Scale.UNKNOWN;
    }
    OwnMeter meter = meters.get(counter);
    boolean read = meter != null && meter.tellsBy(moment);
    // Up to the first reading nothing else is known than what its aircraft ran.
    long before = gathered(counter, opening.at(), read ? meter.begins() : moment);
    if (before == Scale.UNKNOWN) {
      return Scale.UNKNOWN;
    }
    return start(opening) + before + (read ? meter.gathered(moment) : 0);
  }

  /** Every known total along its axis at a moment: what reckoning compares. */
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

  public Usage total() {
    return usageAt(Instant.MAX);
  }

  /** Seconds or a count since new at the end of the view, or {@link Scale#UNKNOWN}. */
  public long sinceNew(Counter counter) {
    if (restart != null) {
      return since(counter, unitsAt(restart.at(), counter));
    }
    return isSinceNew(counter) ? unitsAt(Instant.MAX, counter) : Scale.UNKNOWN;
  }

  /** Seconds or a count since the last overhaul, or {@link Scale#UNKNOWN}. */
  public long sinceOverhaul(Counter counter) {
    return since(counter, overhauledAtUnits(counter));
  }

  /** Seconds or a count since it was put where it is now; UNKNOWN when it is nowhere. */
  public long sinceFitted(Counter counter) {
    Placement placed = history.placed();
    return placed == null ? Scale.UNKNOWN : since(counter, unitsAt(placed.from(), counter));
  }

  /**
   * The readings at the named origins: {@code new} where its day or time is known, {@code overhaul}
   * for the last one (of one never overhauled: when it was new), and {@code fitted} for the first
   * fitment since. What of them is not known is left out.
   */
  public Map<String, Reading> origins() {
    Map<String, Reading> origins = new HashMap<>();
    newReading().ifPresent(reading -> origins.put("new", reading));
    overhaulReading().ifPresent(reading -> origins.put("overhaul", reading));
    fittedSince(overhauledAt())
        .ifPresent(
            fitting -> origins.put("fitted", new Reading(fitting.on(), usageAt(fitting.at()))));
    return origins;
  }

  /** The same as they were just before a moment: of what was done by then alone. */
  public Map<String, Reading> originsBefore(Instant moment) {
    ComponentHistory then =
        new ComponentHistory(
            history.sheet(),
            history.openings(),
            history.overhauls().stream().filter(one -> one.at().isBefore(moment)).toList(),
            history.fittings().stream().filter(one -> one.from().isBefore(moment)).toList(),
            history.placements().stream().filter(one -> one.from().isBefore(moment)).toList(),
            history.events().stream().filter(one -> one.at().isBefore(moment)).toList(),
            history.meterReadings());
    return new ComponentLine(then, aircraft).origins();
  }

  /**
   * The flights of the aircraft that it was on between which it left; null where it was on none.
   */
  UsageLine.Around left(Instant moment) {
    return history.fittings().stream()
        .filter(fitting -> moment.equals(fitting.to()))
        .findFirst()
        .map(fitting -> aircraft.get(fitting.aircraftId()).around(moment))
        .orElse(null);
  }

  /** Its landings on one aircraft after one moment, and by another, in order. */
  public List<Instant> landings(UUID on, Instant after, Instant by) {
    List<Instant> landings = new ArrayList<>();
    for (Fitting fitting : history.fittings()) {
      Instant from = later(after, fitting.from());
      Instant to = fitting.to() == null ? by : earlier(by, fitting.to());
      if (fitting.aircraftId().equals(on) && from.isBefore(to)) {
        landings.addAll(aircraft.get(on).landings(from, to));
      }
    }
    return landings;
  }

  /** The rates of the aircraft that it is fitted to; none while it is not. */
  public Utilisation utilisation(LocalDate today) {
    Fitting fitted = history.fitted();
    return fitted == null ? Utilisation.NONE : aircraft.get(fitted.aircraftId()).utilisation(today);
  }

  private Optional<Reading> newReading() {
    if (restart != null) {
      return Optional.of(new Reading(restart.on(), usageAt(restart.at())));
    }
    Map<Counter, Long> zero = new HashMap<>();
    LocalDate on = null;
    for (Opening opening : openings.values()) {
      on = opening.newOn() != null ? opening.newOn() : on;
      if (opening.sinceNew() != null) {
        zero.put(opening.counter(), 0L);
      }
    }
    return on == null && zero.isEmpty()
        ? Optional.empty()
        : Optional.of(new Reading(on, Usage.ofUnits(zero)));
  }

  private Optional<Reading> overhaulReading() {
    Overhaul last = lastOverhaul();
    LocalDate on = last == null ? null : last.on();
    Map<Counter, Long> units = new HashMap<>();
    for (Opening opening : openings.values()) {
      if (last == null && opening.overhauledOn() != null) {
        on = opening.overhauledOn();
      }
      long at = overhauledAtUnits(opening.counter());
      if (at != Scale.UNKNOWN) {
        units.put(opening.counter(), at);
      }
    }
    return on == null && units.isEmpty()
        ? Optional.empty()
        : Optional.of(new Reading(on, Usage.ofUnits(units)));
  }

  /** The counter's total along its axis when it was last overhauled, or UNKNOWN. */
  private long overhauledAtUnits(Counter counter) {
    Overhaul last = lastOverhaul();
    Opening opening = openings.get(counter);
    if (opening == null) {
      return Scale.UNKNOWN;
    }
    if (last != null && !last.at().isBefore(opening.at())) {
      return unitsAt(last.at(), counter);
    }
    return opening.sinceOverhaul() == null
        ? Scale.UNKNOWN
        : start(opening) - opening.sinceOverhaul();
  }

  private Overhaul lastOverhaul() {
    return overhauls.isEmpty() ? null : overhauls.get(overhauls.size() - 1);
  }

  private Instant overhauledAt() {
    Overhaul last = lastOverhaul();
    return last == null ? Instant.MIN : last.at();
  }

  private record Moment(Instant at, LocalDate on) {}

  /** When it was first in a place since a moment: it was there then, or was fitted after. */
  private Optional<Moment> fittedSince(Instant moment) {
    for (Fitting fitting : history.fittings()) {
      if (fitting.holdsAt(moment)) {
        return Optional.of(new Moment(moment, lastOverhaul().on()));
      }
      if (!fitting.from().isBefore(moment)) {
        return Optional.of(new Moment(fitting.from(), fitting.fromOn()));
      }
    }
    return Optional.empty();
  }

  private static long start(Opening opening) {
    if (opening.sinceNew() != null) {
      return opening.sinceNew();
    }
    return opening.sinceOverhaul() != null ? opening.sinceOverhaul() : 0;
  }

  private long since(Counter counter, long origin) {
    long now = unitsAt(Instant.MAX, counter);
    return now == Scale.UNKNOWN || origin == Scale.UNKNOWN ? Scale.UNKNOWN : now - origin;
  }

  private long gathered(Counter counter, Instant after, Instant by) {
    long sum = 0;
    for (Fitting fitting : history.fittings()) {
      Instant from = later(after, fitting.from());
      Instant to = fitting.to() == null ? by : earlier(by, fitting.to());
      if (from.isBefore(to)) {
        long gathered = aircraft.get(fitting.aircraftId()).gathered(counter, from, to);
        if (gathered == Scale.UNKNOWN) {
          return Scale.UNKNOWN;
        }
        sum += gathered;
      }
    }
    return sum;
  }

  private static Instant later(Instant one, Instant other) {
    return one.isAfter(other) ? one : other;
  }

  private static Instant earlier(Instant one, Instant other) {
    return one.isBefore(other) ? one : other;
  }
}
