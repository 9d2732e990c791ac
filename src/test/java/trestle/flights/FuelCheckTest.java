package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import trestle.fleet.FuelUnit;

/** Two ways of knowing what is in the tanks, against published tolerances and exact units. */
class FuelCheckTest {

  /**
   * CAO 20.2 (Issue 7, 2004) 6.2: the discrepancy "must not exceed 3 per cent of the higher
   * amount"; our arithmetic. The last lines are the edge itself.
   */
  @ParameterizedTest(name = "{0} against {1} at {2} %")
  @CsvSource({
    "412, 401, 3, 12.36, true",
    "401, 412, 3, 12.36, true",
    "400, 387, 3, 12, false",
    "400, 388, 3, 12, true",
    "400, 387.99, 3, 12, false",
    "0, 0, 3, 0, true",
    "0, 0.1, 3, 0.003, false",
  })
  void agreesWithinThePercentageOfTheHigherFigure(
      BigDecimal one, BigDecimal other, BigDecimal percent, BigDecimal allowed, boolean agrees) {
    FuelCheck check = new FuelCheck(one, other, percent);
    assertThat(check.allowed()).isEqualByComparingTo(allowed);
    assertThat(check.agrees()).isEqualTo(agrees);
  }

  /** Our arithmetic: 180 left, 40 put in, 1.1 h at 38 an hour. */
  @Test
  void expectsWhatWasLeftAndPutInLessWhatWasBurned() {
    assertThat(FuelCheck.expected(number("180"), number("40"), number("38"), 3960))
        .isEqualByComparingTo("178.2");
    assertThat(FuelCheck.expected(number("10"), number("0"), number("30"), 7200))
        .isEqualByComparingTo("-50");
    assertThat(new FuelCheck(number("-50"), number("2"), number("3")).agrees()).isFalse();
  }

  /**
   * NIST Handbook 44, appendix C: 1 US gallon is 231 cubic inches, 3.785411784 litres; 1 pound is
   * 0.45359237 kg; both exact. From memory.
   */
  @Test
  void turnsUnitsIntoOneAnotherExactly() {
    assertThat(FuelUnit.US_GALLONS.convert(number("100"), FuelUnit.LITRES, null))
        .isEqualByComparingTo("378.5411784");
    assertThat(FuelUnit.POUNDS.convert(number("100"), FuelUnit.KILOGRAMS, null))
        .isEqualByComparingTo("45.359237");
    assertThat(FuelUnit.LITRES.convert(number("200"), FuelUnit.KILOGRAMS, number("0.72")))
        .isEqualByComparingTo("144");
    assertThat(FuelUnit.KILOGRAMS.convert(number("144"), FuelUnit.LITRES, number("0.72")))
        .isEqualByComparingTo("200");
    BigDecimal there = FuelUnit.US_GALLONS.convert(number("37"), FuelUnit.POUNDS, number("0.72"));
    assertThat(FuelUnit.POUNDS.convert(there, FuelUnit.US_GALLONS, number("0.72")).doubleValue())
        .isEqualTo(37.0);
  }

  @Test
  void assumesNoDensity() {
    assertThatThrownBy(() -> FuelUnit.LITRES.convert(number("1"), FuelUnit.POUNDS, null))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("density");
  }

  private static BigDecimal number(String text) {
    return new BigDecimal(text);
  }
}
