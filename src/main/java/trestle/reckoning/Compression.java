package trestle.reckoning;

import java.math.BigDecimal;
import java.math.RoundingMode;

/**
 * A differential compression reading of one cylinder: what is left on the second gauge of the
 * pressure on the first.
 *
 * <p>The loss is {@code (supply - reading) / supply}, in per cent; at a supply of 80 psi a reading
 * of 60 has lost 25 % (FAA AC 43.13-1B, 8-14, as quoted). Whether that is too much is not said
 * here: only the engine's own limit says it.
 *
 * @param reading of the cylinder, in psi
 * @param supply the regulated pressure, in psi; 80 by common practice
 */
public record Compression(BigDecimal reading, BigDecimal supply) {
  public static final BigDecimal USUAL_SUPPLY = BigDecimal.valueOf(80);

  private static final BigDecimal MOST_SUPPLY = BigDecimal.valueOf(120);

  /**
   * @throws IllegalArgumentException saying what a pressure must be: nothing below zero, no reading
   *     above the supply, no supply above 120 psi
   */
  public Compression {
    if (supply.signum() <= 0 || supply.compareTo(MOST_SUPPLY) > 0) {
      throw new IllegalArgumentException("must have a supply of more than 0, at most 120 psi");
    }
    if (reading.signum() < 0 || reading.compareTo(supply) > 0) {
      throw new IllegalArgumentException(
          "must be from 0 to the supply of " + plain(supply) + " psi, not " + plain(reading));
    }
  }

  public static Compression of(String reading) {
    return new Compression(new BigDecimal(reading), USUAL_SUPPLY);
  }

  /** What is lost, in per cent, to two decimals, half up. */
  public BigDecimal lossPercent() {
    return supply
        .subtract(reading)
        .multiply(BigDecimal.valueOf(100))
        .divide(supply, 2, RoundingMode.HALF_UP);
  }

  /** Whether it reads no less than a limit, in psi at the same supply. */
  public boolean reaches(BigDecimal limit) {
    return reading.compareTo(limit) >= 0;
  }

  /** "72/80". */
  @Override
  public String toString() {
    return plain(reading) + "/" + plain(supply);
  }

  private static String plain(BigDecimal value) {
    return value.stripTrailingZeros().toPlainString();
  }
}
