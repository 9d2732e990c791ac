package trestle.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import trestle.reckoning.Hours;
import trestle.reckoning.HoursStyle;

class ShownTest {
  private static final LocalDate DAY = LocalDate.of(2026, 9, 5);
  private static final ZoneId ST_JOHNS = ZoneId.of("America/St_Johns");

  @ParameterizedTest
  @CsvSource({
    "TENTHS, 41399, 11.4, 11.5",
    "HUNDREDTHS, 41399, 11.49, 11.50",
    "MINUTES, 41399, 11:29, 11:30",
    "TENTHS, -5400, −1.5, −1.5",
    "TENTHS, -180, −0.1, 0.0",
    "TENTHS, 23337360, '6,482.6', '6,482.6'",
  })
  void leftGoesDownAndUsedGoesUp(HoursStyle style, long seconds, String left, String used) {
    assertThat(Shown.left(new Hours(seconds), style)).isEqualTo(left);
    assertThat(Shown.used(new Hours(seconds), style)).isEqualTo(used);
  }

  @Test
  void figures() {
    assertThat(Shown.count(9117)).isEqualTo("9,117");
    assertThat(Shown.count(-3)).isEqualTo("−3");
    assertThat(Shown.quantity(new BigDecimal("1120.50"))).isEqualTo("1,120.5");
    assertThat(Shown.quantity(new BigDecimal("1E+2"))).isEqualTo("100");
    assertThat(Shown.plural(1, "landing")).isEqualTo("1 landing");
    assertThat(Shown.plural(0, "entry", "entries")).isEqualTo("0 entries");
    assertThat(Shown.days(67)).isEqualTo("67 days");
    assertThat(Shown.days(-1)).isEqualTo("−1 day");
  }

  @Test
  void datesAndTimes() {
    assertThat(Shown.date(DAY)).isEqualTo("5 September 2026");
    assertThat(Shown.day(DAY)).isEqualTo("5 Sep");
    assertThat(Shown.day(DAY, DAY.plusYears(1))).isEqualTo("5 Sep 2026");
    assertThat(Shown.weekday(DAY)).isEqualTo("Saturday 5 September 2026");
    Instant moment = Instant.parse("2026-11-25T17:40:59Z");
    assertThat(Shown.time(moment, ST_JOHNS)).isEqualTo("14:10");
    assertThat(Shown.moment(moment, ST_JOHNS)).isEqualTo("25 November 2026, 14:10");
    assertThat(Shown.moment(moment, ZoneOffset.UTC)).isEqualTo("25 November 2026, 17:40 UTC");
  }

  @ParameterizedTest
  @CsvSource({
    "PT59S, less than a minute",
    "PT1M, 1 minute",
    "PT3H59M, 3 hours",
    "PT47H, 47 hours",
    "P2D, 2 days",
    "P67D, 67 days",
  })
  void periods(Duration period, String shown) {
    assertThat(Shown.period(period)).isEqualTo(shown);
  }

  @Test
  void amountsGetTheirThousands() {
    assertThat(Shown.grouped("6214.6")).isEqualTo("6,214.6");
    assertThat(Shown.grouped("6214:36")).isEqualTo("6,214:36");
    assertThat(Shown.grouped("900")).isEqualTo("900");
    assertThat(Shown.grouped("12345678")).isEqualTo("12,345,678");
    assertThat(Shown.grouped("not known")).isEqualTo("not known");
  }

  @Test
  void wordsEndAsASentence() {
    assertThat(Shown.sentence("Belt tightened ")).isEqualTo("Belt tightened.");
    assertThat(Shown.sentence("Is it free?")).isEqualTo("Is it free?");
    assertThat(Shown.sentence("Done.")).isEqualTo("Done.");
    assertThat(Shown.sentence(" ")).isEmpty();
  }

  @Test
  void countsAreOfAnyWholeKind() {
    assertThat(Shown.count(9_117)).isEqualTo("9,117");
    assertThat(Shown.count(-9_117L)).isEqualTo("\u22129,117");
    assertThat(Shown.plural(1, "line")).isEqualTo("1 line");
    assertThat(Shown.plural(2_457L, "line")).isEqualTo("2,457 lines");
  }
}
