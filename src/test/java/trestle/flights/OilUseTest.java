package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import trestle.reckoning.Scale;

/** What an engine uses of its oil, from readings of its dipstick. */
class OilUseTest {
  private static final BigDecimal LIMIT = new BigDecimal("0.5");

  @Test
  void usesWhatWasThereAfterTheLastAdditionLessWhatIsThereNow() {
    List<OilUse> series =
        OilUse.series(List.of(level(100, "9.5", "1.5"), level(103.2, "10.4", "0")));
    assertThat(series.get(0).used()).isNull();
    assertThat(series.get(1).used()).isEqualByComparingTo("0.6");
    assertThat(series.get(1).perHour()).isEqualByComparingTo("0.188");
    assertThat(series.get(1).exceeds(LIMIT)).isFalse();
  }

  @Test
  void anOilChangeBeginsAnew() {
    OilUse.Level changed =
        new OilUse.Level(0, hours(150), new BigDecimal("12"), BigDecimal.ZERO, true);
    List<OilUse> series =
        OilUse.series(List.of(level(100, "8", "0"), changed, level(152, "11.5", "0")));
    assertThat(series.get(1).used()).isNull();
    assertThat(series.get(2).used()).isEqualByComparingTo("0.5");
    assertThat(series.get(2).perHour()).isEqualByComparingTo("0.25");
  }

  @Test
  void aLevelThatRisesWithNothingAddedIsTold() {
    List<OilUse> series = OilUse.series(List.of(level(100, "9", "0"), level(101, "9.5", "0")));
    assertThat(series.get(1).rose()).isTrue();
    assertThat(series.get(1).exceeds(LIMIT)).isFalse();
  }

  @Test
  void oilPutInWithoutAReadingLeavesTheNextOneWithoutABeginning() {
    OilUse.Level unread = new OilUse.Level(0, hours(101), null, BigDecimal.ONE, false);
    OilUse.Level nothing = new OilUse.Level(0, hours(101), null, BigDecimal.ZERO, false);
    assertThat(OilUse.series(List.of(level(100, "9", "0"), unread, level(102, "9", "0"))).get(2))
        .extracting(OilUse::used)
        .isNull();
    assertThat(OilUse.series(List.of(level(100, "9", "0"), nothing, level(102, "8.5", "0"))).get(2))
        .extracting(OilUse::used)
        .isEqualTo(new BigDecimal("0.5"));
  }

  @Test
  void hoursThatAreNotKnownGiveNoRate() {
    OilUse.Level unknown =
        new OilUse.Level(0, Scale.UNKNOWN, new BigDecimal("8"), BigDecimal.ZERO, false);
    OilUse use = OilUse.series(List.of(level(100, "9", "0"), unknown)).get(1);
    assertThat(use.used()).isEqualByComparingTo("1");
    assertThat(use.perHour()).isNull();
    assertThat(use.exceeds(LIMIT)).isFalse();
  }

  /**
   * The limit as an engine manufacturer's service instruction has it (as quoted): 0.006 × bhp × 4 ÷
   * 7.4 quarts an hour; 160 bhp: published as 0.52, 300 bhp: our arithmetic. It is entered for each
   * engine, never reckoned here.
   */
  @ParameterizedTest
  @CsvSource({"160, 0.519", "300, 0.973"})
  void comparesWithTheEnginesOwnLimitExactly(int horsepower, BigDecimal published) {
    BigDecimal limit =
        new BigDecimal("0.006")
            .multiply(BigDecimal.valueOf(horsepower * 4L))
            .divide(new BigDecimal("7.4"), 3, RoundingMode.HALF_UP);
    assertThat(limit).isEqualByComparingTo(published);
    BigDecimal inTenHours = limit.multiply(BigDecimal.TEN);
    BigDecimal full = new BigDecimal("12");
    assertThat(used(full, full.subtract(inTenHours)).exceeds(limit)).isFalse();
    assertThat(
            used(full, full.subtract(inTenHours).subtract(new BigDecimal("0.001"))).exceeds(limit))
        .isTrue();
  }

  private static OilUse used(BigDecimal from, BigDecimal to) {
    return OilUse.series(
            List.of(
                new OilUse.Level(0, hours(500), from, BigDecimal.ZERO, false),
                new OilUse.Level(0, hours(510), to, BigDecimal.ZERO, false)))
        .get(1);
  }

  private static OilUse.Level level(double hours, String before, String added) {
    return new OilUse.Level(0, hours(hours), new BigDecimal(before), new BigDecimal(added), false);
  }

  private static long hours(double hours) {
    return Math.round(hours * 3600);
  }
}
