package trestle.overview;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Where a date by use falls in nine cases of ten. */
class SpreadTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 3, 1);

  /**
   * Weekly hours with mean 9 and standard deviation 4 taken as gamma: the chance that 50 h are used
   * up within 4 weeks is 0.050935, within 6 weeks 0.639783 (computed apart, by an exact solver).
   */
  @Test
  void theChanceIsThatOfTheGammaDistribution() {
    Spread spread = new Spread(9, 4);
    assertThat(spread.chance(50, 28)).isCloseTo(0.050935, within(5e-7));
    assertThat(spread.chance(50, 42)).isCloseTo(0.639783, within(5e-7));
    assertThat(spread.earliest(50, TODAY)).isEqualTo(TODAY.plusDays(28));
  }

  /** NIST/SEMATECH e-Handbook 1.3.5.6: the sample's standard deviation, over n less one. */
  @Test
  void theMeanAndTheDeviationAreThoseOfTheWeeks() {
    Spread spread = Spread.of(List.of(2.0, 4.0, 4.0, 4.0, 5.0, 5.0, 7.0, 9.0));
    assertThat(spread.mean()).isEqualTo(5);
    assertThat(spread.deviation()).isCloseTo(Math.sqrt(32.0 / 7), within(1e-12));
  }

  @Test
  void tooFewWeeksOrWeeksAllAlikeSayNothing() {
    assertThat(Spread.of(List.of(1.0, 2.0, 3.0, 4.0, 5.0))).isNull();
    assertThat(Spread.of(List.of(3.0, 3.0, 3.0, 3.0, 3.0, 3.0))).isNull();
    assertThat(Spread.of(List.of(0.0, 0.0, 0.0, 0.0, 0.0, 0.0))).isNull();
  }

  @Test
  void aStatedRateKeepsTheUnevenness() {
    Spread stated = new Spread(7, 3.5).at(2);
    assertThat(stated.mean()).isEqualTo(14);
    assertThat(stated.deviation()).isEqualTo(7);
  }

  /** The promise itself: of gamma weeks drawn at random, nine in ten fall within the range. */
  @Test
  void nineCasesOfTenFallWithin() {
    Spread spread = new Spread(9, 4);
    double hours = 60;
    long from = spread.earliest(hours, TODAY).toEpochDay();
    long to = spread.latest(hours, TODAY).toEpochDay();
    Random random = new Random(7);
    var daily =
        org.apache.commons.statistics.distribution.GammaDistribution.of(
            9.0 / 7 / (16 / 9.0), 16 / 9.0);
    int within = 0;
    for (int i = 0; i < 4000; i++) {
      double flown = 0;
      long day = TODAY.toEpochDay();
      while (flown < hours) {
        flown += daily.inverseCumulativeProbability(random.nextDouble());
        day++;
      }
      within += day >= from && day <= to ? 1 : 0;
    }
    assertThat(within / 4000.0).isBetween(0.88, 0.93);
  }
}
