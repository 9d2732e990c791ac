package trestle.flights;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import trestle.reckoning.Counter;
import trestle.reckoning.Unit;
import trestle.web.Refusal;

/**
 * What a person reports of one flight. Moments are taken to the second.
 *
 * @param offBlocks null when not given; with on blocks it counts as flight time
 * @param meterOut the meter before the flight in seconds, null when not read
 * @param cycles null when not counted
 * @param others further counters (seconds or counts) that the flight moved
 * @param fuelAdded in the aircraft's unit, null when not given
 * @param fuelLeft in the tanks after the flight, null when not given
 * @param oilAdded by position code, in the unit the operator uses
 */
public record FlightDraft(
    String from,
    String to,
    Instant offBlocks,
    Instant takeOff,
    Instant landing,
    Instant onBlocks,
    Long meterOut,
    Long meterIn,
    int landings,
    Integer cycles,
    SortedMap<Counter, Long> others,
    String commander,
    BigDecimal fuelAdded,
    BigDecimal fuelLeft,
    SortedMap<String, BigDecimal> oilAdded,
    String remarks) {

  /** No flight of these aircraft is longer: a longer one is a slip of the pen. */
  public static final Duration LONGEST = Duration.ofHours(36);

  public FlightDraft {
    from = words(from);
    to = words(to);
    commander = words(commander);
    remarks = remarks == null ? "" : remarks.strip();
    offBlocks = toSecond(offBlocks);
    takeOff = toSecond(takeOff);
    landing = toSecond(landing);
    onBlocks = toSecond(onBlocks);
    others = new TreeMap<>(others);
    fuelAdded = plain(fuelAdded);
    fuelLeft = plain(fuelLeft);
    SortedMap<String, BigDecimal> oil = new TreeMap<>();
    oilAdded.forEach((position, amount) -> oil.put(position, plain(amount)));
    oilAdded = oil;
  }

  /** A flight with the least that must be said. */
  public static FlightDraft of(
      String from, String to, Instant takeOff, Instant landing, int landings, String commander) {
    return new FlightDraft(
        from,
        to,
        null,
        takeOff,
        landing,
        null,
        null,
        null,
        landings,
        null,
        new TreeMap<>(),
        commander,
        null,
        null,
        new TreeMap<>(),
        "");
  }

  public FlightDraft metered(long out, long in) {
    return new FlightDraft(
        from, to, offBlocks, takeOff, landing, onBlocks, out, in, landings, cycles, others,
        commander, fuelAdded, fuelLeft, oilAdded, remarks);
  }

  public FlightDraft blocks(Instant off, Instant on) {
    return new FlightDraft(
        from, to, off, takeOff, landing, on, meterOut, meterIn, landings, cycles, others, commander,
        fuelAdded, fuelLeft, oilAdded, remarks);
  }

  public FlightDraft cycled(Integer count) {
    return new FlightDraft(
        from, to, offBlocks, takeOff, landing, onBlocks, meterOut, meterIn, landings, count, others,
        commander, fuelAdded, fuelLeft, oilAdded, remarks);
  }

  public FlightDraft counting(Map<Counter, Long> amounts) {
    return new FlightDraft(
        from,
        to,
        offBlocks,
        takeOff,
        landing,
        onBlocks,
        meterOut,
        meterIn,
        landings,
        cycles,
        new TreeMap<>(amounts),
        commander,
        fuelAdded,
        fuelLeft,
        oilAdded,
        remarks);
  }

  /** What is wrong with it in itself; that it disagrees with other records is no fault. */
  List<Refusal.Reason> faults(Instant now) {
    List<Refusal.Reason> faults = new ArrayList<>();
    named(faults, "from", "From", from, 80);
    named(faults, "to", "To", to, 80);
    named(faults, "commander", "Commander", commander, 120);
    order(faults, now);
    amounts(faults);
    if (remarks.length() > 4000) {
      faults.add(new Refusal.Reason("remarks", "Remarks must be at most 4,000 characters."));
    }
    return faults;
  }

  private void order(List<Refusal.Reason> faults, Instant now) {
    if (landing.isBefore(takeOff)) {
      faults.add(new Refusal.Reason("landing", "Landing must not be before take-off."));
    } else if (Duration.between(takeOff, landing).compareTo(LONGEST) > 0) {
      faults.add(new Refusal.Reason("landing", "Landing must be within 36 hours of take-off."));
    }
    if (landing.isAfter(now)) {
      faults.add(new Refusal.Reason("landing", "Landing must not be in the future."));
    }
    if (offBlocks != null && offBlocks.isAfter(takeOff)) {
      faults.add(new Refusal.Reason("off-blocks", "Off blocks must not be after take-off."));
    }
    if (onBlocks != null && onBlocks.isBefore(landing)) {
      faults.add(new Refusal.Reason("on-blocks", "On blocks must not be before landing."));
    }
    if ((offBlocks == null) != (onBlocks == null)) {
      faults.add(
          new Refusal.Reason(
              offBlocks == null ? "off-blocks" : "on-blocks",
              "Give both off blocks and on blocks, or neither."));
    }
    if ((meterOut == null) != (meterIn == null)) {
      faults.add(
          new Refusal.Reason(
              meterOut == null ? "meter-out" : "meter-in",
              "Give the meter both before and after the flight, or neither."));
    }
  }

  private void amounts(List<Refusal.Reason> faults) {
    atMost(faults, "landings", "Landings", landings, 999);
    if (cycles != null) {
      atMost(faults, "cycles", "Cycles", cycles, 999);
    }
    others.forEach(
        (counter, units) -> {
          long most = counter.unit() == Unit.HOURS ? LONGEST.toSeconds() : 999;
          atMost(faults, counter.name(), counter.name(), units, most);
        });
    quantity(faults, "fuel-added", "Fuel put in", fuelAdded);
    quantity(faults, "fuel-left", "Fuel in tanks now", fuelLeft);
    oilAdded.forEach(
        (position, amount) -> quantity(faults, "oil-" + position, "Oil added", amount));
  }

  private static void atMost(
      List<Refusal.Reason> faults, String field, String label, long value, long most) {
    if (value < 0 || value > most) {
      faults.add(new Refusal.Reason(field, label + " must be 0 to " + most + "."));
    }
  }

  private static void quantity(
      List<Refusal.Reason> faults, String field, String label, BigDecimal amount) {
    boolean fits =
        amount == null
            || amount.signum() >= 0
                && amount.scale() <= 2
                && amount.compareTo(BigDecimal.valueOf(9_999_999)) <= 0;
    if (!fits) {
      faults.add(
          new Refusal.Reason(field, label + " must be 0 to 9,999,999 with at most two decimals."));
    }
  }

  private static void named(
      List<Refusal.Reason> faults, String field, String label, String text, int most) {
    if (text.isEmpty()) {
      faults.add(new Refusal.Reason(field, label + " is needed."));
    } else if (text.length() > most) {
      faults.add(new Refusal.Reason(field, label + " must be at most " + most + " characters."));
    }
  }

  private static String words(String text) {
    return text == null ? "" : text.strip().replaceAll("\\s+", " ");
  }

  private static Instant toSecond(Instant moment) {
    return moment == null ? null : moment.truncatedTo(ChronoUnit.SECONDS);
  }

  /** One form for equal amounts, so that the same form sent twice compares equal. */
  private static BigDecimal plain(BigDecimal amount) {
    if (amount == null) {
      return null;
    }
    BigDecimal stripped = amount.stripTrailingZeros();
    return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
  }
}
