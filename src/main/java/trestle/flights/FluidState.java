package trestle.flights;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * What the latest readings leave in an aircraft's tanks and engines.
 *
 * @param unit of the fuel, as pages write it
 * @param total of all tanks; null while one was never read
 */
public record FluidState(String unit, List<Left> tanks, List<Left> engines, BigDecimal total) {

  /**
   * What was left in one place.
   *
   * @param amount null when it was never read
   * @param unit of the amount
   * @param hint "read the LEFT scale", or ""
   */
  public record Left(
      String code, String label, BigDecimal amount, String unit, Instant at, String hint) {}

  /**
   * @param readings the latest first
   */
  static FluidState of(
      FluidArrangement arrangement, List<FluidReading> readings, Map<String, String> labels) {
    List<Left> tanks = new ArrayList<>();
    BigDecimal total = BigDecimal.ZERO;
    for (FluidArrangement.Tank tank : arrangement.tanks()) {
      Left left = fuel(tank, arrangement.unit().word(), readings);
      tanks.add(left);
      total = total == null || left.amount() == null ? null : total.add(left.amount());
    }
    List<Left> engines = new ArrayList<>();
    arrangement
        .engines()
        .forEach(
            (position, engine) ->
                engines.add(
                    oil(position, labels.getOrDefault(position, position), engine, readings)));
    return new FluidState(
        arrangement.unit().word(), tanks, engines, tanks.isEmpty() ? null : total);
  }

  private static Left fuel(FluidArrangement.Tank tank, String unit, List<FluidReading> readings) {
    for (FluidReading reading : readings) {
      BigDecimal measured = reading.draft().measured(tank.code());
      if (measured != null) {
        return new Left(tank.code(), tank.label(), measured, unit, reading.happenedAt(), "");
      }
    }
    return new Left(tank.code(), tank.label(), null, unit, null, "");
  }

  private static Left oil(
      String position, String label, FluidArrangement.Engine engine, List<FluidReading> readings) {
    String hint = engine.words();
    for (FluidReading reading : readings) {
      FluidDraft draft = reading.draft();
      BigDecimal before = draft.oilBefore().get(position);
      if (before != null) {
        BigDecimal after = before.add(draft.oilAdded().getOrDefault(position, BigDecimal.ZERO));
        return new Left(position, label, after, engine.unit(), reading.happenedAt(), hint);
      }
    }
    return new Left(position, label, null, engine.unit(), null, hint);
  }
}
