package trestle.flights;

import java.math.BigDecimal;
import java.math.MathContext;

/**
 * Two ways of knowing what is in the tanks, compared: what should be there, or another measurement,
 * against what was measured. All in one unit.
 *
 * @param tolerancePercent of the higher of the two; the operator's own figure. CAO 20.2 (2004),
 *     6.2, had "must not exceed 3 per cent of the higher amount"
 */
public record FuelCheck(BigDecimal expected, BigDecimal measured, BigDecimal tolerancePercent) {
  private static final BigDecimal SECONDS_OF_AN_HOUR = BigDecimal.valueOf(3_600);
  private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

  /** What should be in the tanks: left, and put in, less what the flight burned at a rate. */
  public static BigDecimal expected(
      BigDecimal left, BigDecimal added, BigDecimal burnPerHour, long seconds) {
    BigDecimal burned =
        burnPerHour
            .multiply(BigDecimal.valueOf(seconds))
            .divide(SECONDS_OF_AN_HOUR, MathContext.DECIMAL128);
    return left.add(added).subtract(burned);
  }

  /** Measured less expected: negative when fuel is missing. */
  public BigDecimal difference() {
    return measured.subtract(expected);
  }

  /** The greatest difference that agrees. */
  public BigDecimal allowed() {
    return expected.max(measured).max(BigDecimal.ZERO).multiply(tolerancePercent).divide(HUNDRED);
  }

  /** A difference of just what is allowed agrees. */
  public boolean agrees() {
    return difference().abs().compareTo(allowed()) <= 0;
  }
}
