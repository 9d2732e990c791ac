package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

class IntervalTest {

  record Sum(String source, String from, String every, int times, String to) {}

  private static final List<Sum> SUMS =
      List.of(
          new Sum("java.time plusMonths [V]", "2007-03-31", "P1M", 1, "2007-04-30"),
          new Sum("java.time plusMonths [V]", "2012-01-31", "P1M", 1, "2012-02-29"),
          new Sum("java.time plusMonths [V]", "2013-10-31", "P4M", 1, "2014-02-28"),
          new Sum("java.time plusYears [V]", "2012-02-29", "P1Y", 1, "2013-02-28"),
          new Sum("PostgreSQL interval, from memory [M]", "2025-01-31", "P1M", 1, "2025-02-28"),
          new Sum("SQL ADD_MONTHS docs, clamp [V]", "2016-01-31", "P1M", 1, "2016-02-29"),
          new Sum("SQL ADD_MONTHS docs, clamp [V]", "2000-01-30", "P1M", 1, "2000-02-29"),
          new Sum("RFC 7529 SKIP=BACKWARD [V]", "2014-01-31", "P1M", 1, "2014-02-28"),
          new Sum("RFC 7529 SKIP=BACKWARD [V]", "2014-01-31", "P1M", 2, "2014-03-31"),
          new Sum("RFC 7529 SKIP=BACKWARD [V]", "2014-01-31", "P1M", 3, "2014-04-30"),
          new Sum("never chained [D]", "2025-01-31", "P1M", 2, "2025-03-31"),
          new Sum("never chained [D]", "2025-01-31", "P1M", 4, "2025-05-31"),
          new Sum("never chained [D]", "2024-02-29", "P1Y", 4, "2028-02-29"),
          new Sum("months first, then days", "2025-01-31", "P1M15D", 1, "2025-03-15"),
          new Sum("months first, then days, twice", "2025-01-31", "P1M15D", 2, "2025-04-30"),
          new Sum("weeks are seven days", "2025-01-31", "P2W", 1, "2025-02-14"),
          new Sum("a year of months", "2024-02-29", "P12M", 1, "2025-02-28"),
          new Sum("a year of days differs", "2024-02-29", "P365D", 1, "2025-02-28"),
          new Sum("a year of days differs", "2023-02-28", "P366D", 1, "2024-02-29"),
          new Sum("no leap year in 1900", "1900-01-31", "P1M", 1, "1900-02-28"),
          new Sum("200 years", "2200-12-31", "P200Y", 1, "2400-12-31"));

  @TestFactory
  Stream<DynamicTest> adds() {
    return Cases.each(
        SUMS,
        row -> row.source + ": " + row.from + " + " + row.times + " x " + row.every,
        row ->
            assertThat(
                    LocalDate.ofEpochDay(Interval.parse(row.every).after(day(row.from), row.times)))
                .isEqualTo(row.to));
  }

  record Difference(String source, String from, String less, String to) {}

  private static final List<Difference> DIFFERENCES =
      List.of(
          new Difference("SQL docs: clamp, not sticky [V]", "2015-09-30", "P1M", "2015-08-30"),
          new Difference("java.time: not reversible [V]", "2020-02-29", "P1M", "2020-01-29"),
          new Difference("months first, then days", "2025-03-31", "P1M15D", "2025-02-13"));

  @TestFactory
  Stream<DynamicTest> takesAway() {
    return Cases.each(
        DIFFERENCES,
        row -> row.source + ": " + row.from + " - " + row.less,
        row ->
            assertThat(Interval.parse(row.less).takenFrom(LocalDate.parse(row.from)))
                .isEqualTo(row.to));
  }

  /**
   * RFC 5545 3.3.10 [Q]: recurrence leaves out days that don't exist, e.g. BYMONTHDAY=30 in
   * February (published example [V] 2007-01-15, 01-30, 02-15, 03-15, 03-30). A due date must not be
   * left out: it is where RFC 7529's SKIP=BACKWARD puts it.
   */
  @Test
  void differsFromRecurrenceWhereItMust() {
    Interval month = Interval.parse("P1M");
    assertThat(dates(month, "2007-01-15", 2)).containsExactly("2007-02-15", "2007-03-15");
    assertThat(dates(month, "2007-01-30", 2))
        .containsExactly("2007-02-28", "2007-03-30")
        .isNotEqualTo(List.of("2007-03-30", "2007-04-30"));
    assertThat(dates(month, "2025-01-31", 3))
        .as("RFC 7529 OMIT [V] gives 03-31, 05-31, 07-31; FORWARD gives 03-01")
        .containsExactly("2025-02-28", "2025-03-31", "2025-04-30");
  }

  private static List<String> dates(Interval every, String from, int count) {
    return Stream.iterate(1, k -> k + 1)
        .limit(count)
        .map(k -> LocalDate.ofEpochDay(every.after(day(from), k)).toString())
        .toList();
  }

  private static final List<String> REFUSED =
      List.of(
          "P",
          "",
          "P0D",
          "P0Y0M",
          "-P1M",
          "+P1M",
          "P-1M",
          "P+1M",
          "p1m",
          "P1m",
          "PT1H",
          "P1DT1H",
          "P1.5M",
          "P1,5M",
          "1M",
          "P1",
          "P1D1M",
          "P1M1Y",
          " P1M",
          "P1M ",
          "P201Y",
          "P200Y1D",
          "P2401M",
          "P73049D",
          "P10436W",
          "P99999999999999999999Y",
          "P4294967297D",
          "P\u0661M");

  @TestFactory
  Stream<DynamicTest> refuses() {
    return Cases.each(
        REFUSED,
        text -> "'" + text + "'",
        text ->
            assertThatThrownBy(() -> Interval.parse(text))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageStartingWith("must be"));
  }

  @Test
  void surviveTextAndBack() {
    for (String text : List.of("P12M", "P1Y", "P90D", "P1M15D", "P1Y2M3W4D", "P200Y", "P73048D")) {
      assertThat(Interval.parse(text)).hasToString(text);
    }
    assertThat(Interval.parse("P0Y012M")).hasToString("P12M");
  }

  @Test
  void comparesRoughlyWithMonthsOfThirtyDays() {
    assertThat(Interval.parse("P29D").isSmallerThan(Interval.parse("P1M"))).isTrue();
    assertThat(Interval.parse("P30D").isSmallerThan(Interval.parse("P1M"))).isFalse();
    assertThat(Interval.parse("P359D").isSmallerThan(Interval.parse("P1Y"))).isTrue();
    assertThat(Interval.parse("P12M").isSmallerThan(Interval.parse("P1Y"))).isFalse();
  }

  /** Stepping is what the division must agree with, and must not do. */
  @Property(tries = 2_000)
  void dividesAsSteppingWould(
      @ForAll @IntRange(min = -25_000, max = 84_000) int from,
      @ForAll @IntRange(min = 0, max = 40_000) int later,
      @ForAll @IntRange(min = 0, max = 2) int years,
      @ForAll @IntRange(min = 0, max = 14) int months,
      @ForAll @IntRange(min = 0, max = 3) int weeks,
      @ForAll @IntRange(min = 0, max = 40) int days) {
    if (years + months + weeks + days > 0) {
      Interval every = new Interval(years, months, weeks, days);
      LocalDate start = LocalDate.ofEpochDay(from);
      LocalDate end = start.plusDays(later);
      int k = 0;
      while (!stepped(start, every, k + 1).isAfter(end)) {
        k++;
      }
      assertThat(every.timesBetween(from, from + (long) later)).isEqualTo(k);
    }
  }

  private static LocalDate stepped(LocalDate start, Interval every, int k) {
    return start
        .plusMonths((every.years() * 12L + every.months()) * k)
        .plusDays((every.weeks() * 7L + every.days()) * k);
  }

  private static long day(String text) {
    return LocalDate.parse(text).toEpochDay();
  }
}
