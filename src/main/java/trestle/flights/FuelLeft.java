package trestle.flights;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import trestle.fleet.FuelUnit;

/**
 * What an expectation in the tanks goes out from: the last time that they were read.
 *
 * @param amount that was left then
 * @param added since, in the same unit
 */
record FuelLeft(Instant at, BigDecimal amount, BigDecimal added) {

  /**
   * Of all tanks together, since every one of them was read; null where that never was.
   *
   * @param before earlier readings, the latest first
   */
  static FuelLeft of(FluidArrangement arrangement, List<FluidReading> before) {
    BigDecimal since = BigDecimal.ZERO;
    for (FluidReading reading : before) {
      if (FuelUnit.parse(reading.fuelUnit) != arrangement.unit()) {
        return null;
      }
      BigDecimal left = total(arrangement, reading.draft());
      if (left != null) {
        return new FuelLeft(reading.happenedAt(), left, since);
      }
      since = since.add(added(arrangement, reading.draft()));
    }
    return null;
  }

  /** The same of one tank, since it was last read. */
  static FuelLeft of(FluidArrangement.Tank tank, FuelUnit unit, List<FluidReading> before) {
    BigDecimal since = BigDecimal.ZERO;
    for (FluidReading reading : before) {
      if (FuelUnit.parse(reading.fuelUnit) != unit) {
        return null;
      }
      BigDecimal left = reading.draft().measured(tank.code());
      if (left != null) {
        return new FuelLeft(reading.happenedAt(), left, since);
      }
      since = since.add(reading.draft().addedTo(tank.code(), unit));
    }
    return null;
  }

  /** What was read of all tanks together; null while one of them was not read. */
  static BigDecimal total(FluidArrangement arrangement, FluidDraft draft) {
    BigDecimal total = BigDecimal.ZERO;
    for (FluidArrangement.Tank tank : arrangement.tanks()) {
      BigDecimal measured = draft.measured(tank.code());
      if (measured == null) {
        return null;
      }
      total = total.add(measured);
    }
    return arrangement.tanks().isEmpty() ? null : total;
  }

  /** What was put into all tanks together, in their unit. */
  static BigDecimal added(FluidArrangement arrangement, FluidDraft draft) {
    BigDecimal added = BigDecimal.ZERO;
    for (FluidArrangement.Tank tank : arrangement.tanks()) {
      added = added.add(draft.addedTo(tank.code(), arrangement.unit()));
    }
    return added;
  }
}
