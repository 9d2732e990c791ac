package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import trestle.reckoning.DeferralClock.Category;
import trestle.reckoning.DeferralExtension.Refused;

/** The deferral clock against published examples; the source and its status stand in each name. */
class DeferralClockTest {

  private static final ZoneId ST_JOHNS = ZoneId.of("America/St_Johns");

  record Runs(String source, Category category, String discovered, String lastDay) {}

  private static final List<Runs> RUNS =
      List.of(
          new Runs("PL-25 Rev 24, case 22 [Q]", Category.B, "2026-01-26", "2026-01-29"),
          new Runs("PL-25 Rev 24, case 23 [Q]", Category.C, "2026-01-26", "2026-02-05"),
          new Runs("PL-25 Rev 24, case 24 [D]", Category.D, "2025-01-26", "2025-05-26"),
          new Runs("PL-25 Rev 24, case 24 leap [D]", Category.D, "2024-01-26", "2024-05-25"),
          new Runs("line pilot's example, case 26 [Q]", Category.C, "2002-09-10", "2002-09-20"));

  @TestFactory
  Stream<DynamicTest> runsToTheEndOfItsLastDay() {
    return Cases.each(
        RUNS,
        row -> row.source + " " + row.category,
        row ->
            assertThat(DeferralClock.lastDay(LocalDate.parse(row.discovered), row.category))
                .isEqualTo(row.lastDay));
  }

  /** Engineer's example on a forum, case 27 [Q]: A "2 days", found 1 January at 16:30. */
  @Test
  void categoryAStatesItsOwnDays() {
    assertThat(DeferralClock.lastDay(LocalDate.of(2026, 1, 1), 2)).isEqualTo("2026-01-03");
    assertThatThrownBy(() -> DeferralClock.lastDay(LocalDate.of(2026, 1, 1), Category.A))
        .hasMessage("category A states its own interval");
  }

  /** PL-25 Rev 24, definition of flight-day [Q]: days without flights don't count. Our dates. */
  @Test
  void flightDaysAreThoseFlown() {
    LocalDate found = LocalDate.of(2026, 1, 26);
    List<LocalDate> flown =
        List.of(
            LocalDate.of(2026, 1, 25),
            found,
            LocalDate.of(2026, 1, 28),
            LocalDate.of(2026, 1, 28),
            LocalDate.of(2026, 2, 3));
    assertThat(DeferralClock.lastFlightDay(found, 2, flown)).contains(LocalDate.of(2026, 2, 3));
    assertThat(DeferralClock.lastFlightDay(found, 3, flown)).isEmpty();
  }

  /** PL-25 Rev 24 [Q]: flights, cycles, hours are counted from the deferral. Our numbers. */
  @Test
  void useCountsFromTheDeferral() {
    Rule rule = DeferralClock.inUse(Counter.LANDINGS, Amount.count(5));
    History deferred =
        History.NONE.withOrigins(
            java.util.Map.of(
                DeferralClock.DEFERRED, new Reading(null, Usage.of(Counter.LANDINGS, "2210"))));
    LocalDate today = LocalDate.of(2026, 3, 31);
    assertThat(spent(rule, deferred, today, "2214")).isFalse();
    assertThat(spent(rule, deferred, today, "2215")).isTrue();
  }

  private static boolean spent(Rule rule, History history, LocalDate today, String landings) {
    return Reckoner.reckon(
            rule, history, new Situation(today, Usage.of(Counter.LANDINGS, landings)))
        .spent();
  }

  record Printed(String name, boolean inUtc, String lastDay, String words, String instant) {}

  private static final List<Printed> PRINTED =
      List.of(
          new Printed(
              "UTC in winter",
              true,
              "2026-01-29",
              "23:59 UTC (20:29 local)",
              "2026-01-30T00:00:00Z"),
          new Printed(
              "UTC in summer",
              true,
              "2026-07-29",
              "23:59 UTC (21:29 local)",
              "2026-07-30T00:00:00Z"),
          new Printed(
              "local in winter",
              false,
              "2026-01-29",
              "23:59 local (03:29 UTC the next day)",
              "2026-01-30T03:30:00Z"),
          new Printed(
              "local in summer",
              false,
              "2026-07-29",
              "23:59 local (02:29 UTC the next day)",
              "2026-07-30T02:30:00Z"));

  @TestFactory
  Stream<DynamicTest> printsBothClocks() {
    return Cases.each(
        PRINTED,
        Printed::name,
        row -> {
          DeferralClock clock = new DeferralClock(ST_JOHNS, row.inUtc);
          LocalDate lastDay = LocalDate.parse(row.lastDay);
          assertThat(clock.words(lastDay)).isEqualTo(row.words);
          assertThat(clock.runsOutAt(lastDay).toInstant()).hasToString(row.instant);
        });
  }

  @Test
  void saysWhenTheOtherClockIsADayBehind() {
    assertThat(new DeferralClock(ZoneId.of("Asia/Tokyo"), false).words(LocalDate.of(2026, 1, 29)))
        .isEqualTo("23:59 local (14:59 UTC)");
    assertThat(new DeferralClock(ZoneId.of("Asia/Tokyo"), true).words(LocalDate.of(2026, 1, 29)))
        .isEqualTo("23:59 UTC (08:59 local the next day)");
  }

  private static final DeferralExtension FAA =
      new DeferralExtension(Set.of(Category.B, Category.C), 1);
  private static final DeferralExtension EASA =
      new DeferralExtension(Set.of(Category.B, Category.C, Category.D), 1);

  record Asked(
      String source,
      DeferralExtension profile,
      Category category,
      int before,
      int moreDays,
      Refused refused) {}

  private static final List<Asked> ASKED =
      List.of(
          new Asked("8900.1 4-689, D [Q]", FAA, Category.D, 0, 10, Refused.CATEGORY),
          new Asked("8900.1 4-689, A [Q]", FAA, Category.A, 0, 1, Refused.CATEGORY),
          new Asked("8900.1 4-689, C [Q]", FAA, Category.C, 0, 10, null),
          new Asked("ORO.MLR.105(f), D [V]", EASA, Category.D, 0, 120, null),
          new Asked("ORO.MLR.105(f), A [V]", EASA, Category.A, 0, 1, Refused.CATEGORY),
          new Asked("ORO.MLR.105(f), once [V]", EASA, Category.D, 1, 1, Refused.TIMES),
          new Asked("ORO.MLR.105(f)(2), no longer [V]", EASA, Category.B, 0, 4, Refused.LENGTH));

  @TestFactory
  Stream<DynamicTest> extendsAsTheProfileAllows() {
    LocalDate lastDay = LocalDate.of(2026, 1, 29);
    return Cases.each(
        ASKED,
        Asked::source,
        row ->
            assertThat(
                    row.profile.check(
                        row.category, row.before, lastDay, lastDay.plusDays(row.moreDays)))
                .isEqualTo(Optional.ofNullable(row.refused)));
  }

  /** ORO.MLR.105(f)(2), case 29 [D]: B to 29 January, extended to 1 February at most. */
  @Test
  void theLongestExtensionOfB() {
    assertThat(DeferralExtension.latest(Category.B, LocalDate.of(2026, 1, 29)))
        .isEqualTo("2026-02-01");
  }
}
