package trestle.flights;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToLongFunction;
import trestle.reckoning.Scale;

/**
 * What was read of fuel, against another reading or against what can be there.
 *
 * @param tank what it is of, as people call it
 */
record FuelComparison(String tank, Against against, FuelCheck check) {

  /**
   * What a reading is held against. From which tank the engines drew is not recorded: of all tanks
   * together an amount is expected, of one of several only the most and the least there can be.
   */
  enum Against {
    DIP,
    EXPECTED,
    MOST,
    LEAST
  }

  /**
   * All that can be compared.
   *
   * @param before earlier readings, the latest first
   * @param flownSince seconds flown since a moment, until this was read; unknown where they are
   */
  static List<FuelComparison> of(
      FluidArrangement arrangement,
      List<FluidReading> before,
      FluidDraft draft,
      ToLongFunction<Instant> flownSince) {
    List<FuelComparison> fuel = new ArrayList<>();
    for (FluidArrangement.Tank tank : arrangement.tanks()) {
      BigDecimal gauge = draft.gauge().get(tank.code());
      BigDecimal dip = draft.dip().get(tank.code());
      if (gauge != null && dip != null) {
        fuel.add(new FuelComparison(tank.label(), Against.DIP, check(arrangement, dip, gauge)));
      }
    }
    FuelLeft left = FuelLeft.of(arrangement, before);
    BigDecimal measured = FuelLeft.total(arrangement, draft);
    if (left != null && measured != null) {
      BigDecimal there = left.amount().add(left.added()).add(FuelLeft.added(arrangement, draft));
      BigDecimal expected = afterBurning(arrangement, there, flownSince.applyAsLong(left.at()));
      if (expected != null) {
        fuel.add(
            new FuelComparison(
                "All tanks", Against.EXPECTED, check(arrangement, expected, measured)));
      }
    }
    if (arrangement.tanks().size() > 1) {
      arrangement
          .tanks()
          .forEach(tank -> bounds(fuel, arrangement, tank, before, draft, flownSince));
    }
    return fuel;
  }

  /** Of one of several tanks: only what can't be so is told. */
  private static void bounds(
      List<FuelComparison> fuel,
      FluidArrangement arrangement,
      FluidArrangement.Tank tank,
      List<FluidReading> before,
      FluidDraft draft,
      ToLongFunction<Instant> flownSince) {
    FuelLeft left = FuelLeft.of(tank, arrangement.unit(), before);
    BigDecimal measured = draft.measured(tank.code());
    if (left == null || measured == null) {
      return;
    }
    BigDecimal most =
        left.amount().add(left.added()).add(draft.addedTo(tank.code(), arrangement.unit()));
    FuelCheck above = check(arrangement, most, measured);
    if (above.difference().signum() > 0 && !above.agrees()) {
      fuel.add(new FuelComparison(tank.label(), Against.MOST, above));
    }
    BigDecimal least = afterBurning(arrangement, most, flownSince.applyAsLong(left.at()));
    if (least != null) {
      FuelCheck below = check(arrangement, least, measured);
      if (below.difference().signum() < 0 && !below.agrees()) {
        fuel.add(new FuelComparison(tank.label(), Against.LEAST, below));
      }
    }
  }

  /** Null where it is not known what was burned. */
  private static BigDecimal afterBurning(
      FluidArrangement arrangement, BigDecimal there, long seconds) {
    return arrangement.burnPerHour() == null || seconds == Scale.UNKNOWN
        ? null
        : FuelCheck.expected(there, BigDecimal.ZERO, arrangement.burnPerHour(), seconds);
  }

  private static FuelCheck check(
      FluidArrangement arrangement, BigDecimal against, BigDecimal measured) {
    return new FuelCheck(against, measured, arrangement.tolerancePercent());
  }
}
