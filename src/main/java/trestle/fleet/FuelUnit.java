package trestle.fleet;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;

/**
 * A unit in which fuel is measured. Between volume and mass there is a density, which a person
 * states: it differs with the fuel and its temperature, so none is assumed.
 */
public enum FuelUnit {
  LITRES("litres", true, "1"),
  /** 231 cubic inches of 2.54 cm: exact (NIST Handbook 44, appendix C). */
  US_GALLONS("US gallons", true, "3.785411784"),
  KILOGRAMS("kg", false, "1"),
  /** The international avoirdupois pound: exact (NIST Handbook 44, appendix C). */
  POUNDS("lb", false, "0.45359237");

  private final String word;
  private final boolean volume;
  private final BigDecimal inBase;

  FuelUnit(String word, boolean volume, String inBase) {
    this.word = word;
    this.volume = volume;
    this.inBase = new BigDecimal(inBase);
  }

  /** As forms, pages and the database write it. */
  public String word() {
    return word;
  }

  public boolean isVolume() {
    return volume;
  }

  static boolean isUnit(String word) {
    return Arrays.stream(values()).anyMatch(unit -> unit.word.equals(word));
  }

  /**
   * @throws IllegalArgumentException for a word that is no unit
   */
  public static FuelUnit parse(String word) {
    return Arrays.stream(values())
        .filter(unit -> unit.word.equals(word))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("must be a unit of fuel: " + word));
  }

  /** Whether turning this unit into another takes a density. */
  public boolean needsDensity(FuelUnit to) {
    return volume != to.volume;
  }

  /**
   * An amount in another unit, to 34 digits.
   *
   * @param density in kg per litre; only read between volume and mass
   * @throws IllegalArgumentException when a density is needed and there is none
   */
  public BigDecimal convert(BigDecimal amount, FuelUnit to, BigDecimal density) {
    if (this == to) {
      return amount;
    }
    BigDecimal base = amount.multiply(inBase);
    if (needsDensity(to)) {
      if (density == null) {
        throw new IllegalArgumentException("A density is needed from " + word + " to " + to.word);
      }
      base = volume ? base.multiply(density) : base.divide(density, MathContext.DECIMAL128);
    }
    return base.divide(to.inBase, MathContext.DECIMAL128);
  }
}
