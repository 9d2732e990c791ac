package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Regulations, circulars and manuals, case by case. Each name has the source and its status: V read
 * in the document, Q read as a quotation of it, D the rule published and the arithmetic ours.
 */
class PublishedCasesTest {

  /** One calendar limit, done once, and the last day it is good. */
  record Dated(String source, Limit.Every limit, String done, String goodThrough) {}

  private static final Limit.Every ANNUAL = months(12);

  private static Limit.Every months(int months) {
    return Limit.Every.of(Interval.ofMonths(months)).toMonthEnd();
  }

  private static final List<Dated> DATED =
      List.of(
          new Dated("1: 14 CFR 91.409(a) [D]", ANNUAL, "2025-03-11", "2026-03-31"),
          new Dated("2: 14 CFR 91.409(a) [D]", ANNUAL, "2025-03-01", "2026-03-31"),
          new Dated("2: 14 CFR 91.409(a) [D]", ANNUAL, "2025-03-31", "2026-03-31"),
          new Dated("4: 14 CFR 91.409(a) [D]", ANNUAL, "2024-02-29", "2025-02-28"),
          new Dated("5: 14 CFR 91.409(a) [D]", ANNUAL, "2023-02-15", "2024-02-29"),
          new Dated("6: 14 CFR 91.411 [Q/D]", months(24), "2020-07-22", "2022-07-31"),
          new Dated("17: 14 CFR 91.171(a)(2) [D]", days(30), "2026-03-01", "2026-03-31"),
          new Dated(
              "20: 14 CFR 91.207(c)(2), half of ten years [D]",
              Limit.Every.of(Interval.parse("P5Y")),
              "2020-06-01",
              "2025-06-01"),
          new Dated("21: 14 CFR 91.207(d) [D]", ANNUAL, "2025-08-14", "2026-08-31"),
          new Dated(
              "44: M.A.305(a), entered within 30 days [D]", days(30), "2026-01-05", "2026-02-04"),
          new Dated(
              "45: M.A.306, 36 months [D]",
              Limit.Every.of(Interval.ofMonths(36)),
              "2023-04-30",
              "2026-04-30"),
          new Dated(
              "55: 49 CFR 180.209, 3AA five years [V/D]",
              Limit.Every.of(Interval.parse("P5Y")).toMonthEnd(),
              "2021-04-15",
              "2026-04-30"),
          new Dated(
              "55: 49 CFR 180.209, 3HT three years [V/D]",
              Limit.Every.of(Interval.parse("P3Y")).toMonthEnd(),
              "2023-09-15",
              "2026-09-30"));

  private static Limit.Every days(int days) {
    return Limit.Every.of(Interval.ofDays(days));
  }

  @TestFactory
  Stream<DynamicTest> dates() {
    return Cases.each(
        DATED,
        row -> row.source + ": " + row.done,
        row -> {
          LocalDate lastDay = LocalDate.parse(row.goodThrough);
          History history = History.since(Reading.on(LocalDate.parse(row.done)));
          assertThat(on(row.limit, history, lastDay).dueOn()).isEqualTo(lastDay);
          assertThat(on(row.limit, history, lastDay).spent()).isFalse();
          assertThat(on(row.limit, history, lastDay.plusDays(1)).spent()).isTrue();
        });
  }

  private static LimitReckoning on(Limit limit, History history, LocalDate today) {
    return Reckoner.reckon(Rule.first(limit), history, new Situation(today, Usage.NONE))
        .controllingLimit();
  }

  /** One limit in hours: last done, done again, due next, whether the second doing overran. */
  record Used(
      String source, Limit.Every limit, String last, String done, String next, boolean over) {}

  private static final Limit.Every EN_ROUTE =
      Limit.Every.of(Counter.HOURS, "100").tolerance("10").keepSchedule();
  private static final Limit.Every PART_ML = Limit.Every.of(Counter.HOURS, "100").tolerance("10");
  private static final Limit.Every SEVENTY_FIVE = Limit.Every.of(Counter.HOURS, "75").window("5");
  private static final Limit.Every TWENTY_FIVE = Limit.Every.of(Counter.HOURS, "25").window("2.5");

  private static final List<Used> USED =
      List.of(
          new Used("9: 14 CFR 91.409(b) [D]", EN_ROUTE, "900", "1006.0", "1100", false),
          new Used("10: 14 CFR 91.409(b) [D]", EN_ROUTE, "900", "1010.0", "1100", false),
          new Used(
              "11: 14 CFR 91.409(b), a violation [D]", EN_ROUTE, "900", "1010.1", "1100", true),
          new Used("13: 14 CFR 91.409(b) [D]", EN_ROUTE, "900", "992.0", "1092", false),
          new Used(
              "14: 14 CFR 91.409(a),(b), an annual at 1,075.0 [D]",
              EN_ROUTE,
              "1040",
              "1075",
              "1175",
              false),
          new Used("32: ML.A.302(d)(1) [Q/D]", PART_ML, "1900", "2008", "2108", false),
          new Used(
              "38: TM-328, 25 h, opening of the window [V]",
              TWENTY_FIVE,
              "1447.7",
              "1470.2",
              "1497.7",
              false),
          new Used(
              "38: TM-328, 25 h, close of the window [V]",
              TWENTY_FIVE.tolerance("2.5"),
              "1447.7",
              "1475.2",
              "1497.7",
              false),
          new Used(
              "38: TM-328, 25 h, before the window [V]",
              TWENTY_FIVE,
              "1447.7",
              "1470.1",
              "1495.1",
              false),
          new Used(
              "39: TM-328, 75 h, opening of the window [V]",
              SEVENTY_FIVE,
              "1534.4",
              "1604.4",
              "1684.4",
              false),
          new Used(
              "39: TM-328, 75 h, close of the window [V]",
              SEVENTY_FIVE.tolerance("5"),
              "1534.4",
              "1614.4",
              "1684.4",
              false),
          new Used(
              "39: TM-328, 75 h, past the window [V]",
              SEVENTY_FIVE.tolerance("5"),
              "1534.4",
              "1614.5",
              "1689.5",
              true));

  @TestFactory
  Stream<DynamicTest> hours() {
    return Cases.each(
        USED,
        row -> row.source + ": " + row.done,
        row -> {
          LimitReckoning limit = at(row.limit, hours(row.last), row.done, hours(row.done));
          assertThat(limit.dueAt()).hasToString(row.next);
          assertThat(limit.overrun()).isEqualTo(row.over);
        });
  }

  private static LimitReckoning at(Limit limit, Reading last, String now, Reading... doings) {
    return Reckoner.reckon(
            Rule.first(limit),
            History.since(last, doings),
            new Situation(LocalDate.of(2026, 1, 1), Usage.ofHours(now)))
        .controllingLimit();
  }

  private static Reading hours(String hours) {
    return new Reading(null, Usage.ofHours(hours));
  }

  /** 14 CFR 91.409 [D], case 15: a 100-hour inspection does not move the annual. */
  @Test
  void aHundredHourInspectionLeavesTheAnnual() {
    History annual = History.since(Reading.on(LocalDate.of(2025, 3, 11)));
    assertThat(on(ANNUAL, annual, LocalDate.of(2025, 9, 15)).dueOn()).isEqualTo("2026-03-31");
  }

  /** 14 CFR 91.207(c)(1) [D], case 19: replace after more than one cumulative hour. */
  @Test
  void anHourOfUseAndNoMore() {
    Counter use = new Counter("beacon-hours");
    Limit limit = Limit.Fixed.at(use, "1:01");
    assertThat(beacon(limit, use, "1:00").spent()).isFalse();
    assertThat(beacon(limit, use, "1:01").spent()).isTrue();
  }

  private static LimitReckoning beacon(Limit limit, Counter use, String total) {
    return Reckoner.reckon(
            Rule.first(limit),
            History.NONE,
            new Situation(LocalDate.of(2026, 1, 1), Usage.of(use, total)))
        .controllingLimit();
  }

  /** ML.A.302(d)(1) [Q/D], case 34. */
  @Test
  void partMlAnnualWithAMonthOfTolerance() {
    Limit.Every annual = Limit.Every.of(Interval.parse("P12M")).tolerance("P1M");
    History before = History.since(Reading.on(LocalDate.of(2025, 4, 15)));
    assertThat(on(annual, before, LocalDate.of(2026, 5, 15)).state()).isEqualTo(State.IN_TOLERANCE);
    assertThat(on(annual, before, LocalDate.of(2026, 5, 16)).state()).isEqualTo(State.OVERDUE);
    History after =
        History.since(Reading.on(LocalDate.of(2025, 4, 15)), Reading.on(LocalDate.of(2026, 5, 10)));
    LimitReckoning next = on(annual, after, LocalDate.of(2026, 5, 10));
    assertThat(next.dueOn()).isEqualTo("2027-05-10");
    assertThat(next.overrun()).isFalse();
  }

  /** AMC M.A.302(i), ELA1, ED 2015/024/R [V]: the older rule counts from the date scheduled. */
  @Test
  void theOlderRuleKeepsTheSchedule() {
    Limit.Every annual = Limit.Every.of(Interval.parse("P12M")).tolerance("P1M").keepSchedule();
    History after =
        History.since(Reading.on(LocalDate.of(2025, 4, 15)), Reading.on(LocalDate.of(2026, 5, 10)));
    assertThat(on(annual, after, LocalDate.of(2026, 5, 10)).dueOn()).isEqualTo("2027-04-15");
  }

  /** ML.A.302(d)(1), "whichever comes first" [V/D], case 35. */
  @Test
  void whicheverComesFirst() {
    Reckoning answer =
        Reckoner.reckon(
            Rule.first(PART_ML, Limit.Every.of(Interval.parse("P12M"))),
            History.since(new Reading(LocalDate.of(2025, 6, 1), Usage.ofHours("500"))),
            new Situation(LocalDate.of(2026, 2, 1), Usage.ofHours("600")));
    assertThat(answer.state()).isEqualTo(State.DUE);
    assertThat(answer.controlling()).containsExactly(0);
    assertThat(((LimitReckoning) answer.entries().get(1)).dueOn()).isEqualTo("2026-06-01");
  }

  /**
   * TM-328 [V], case 42: due 6 February 1999, window 7 January to 8 March 1999. Twelve months or
   * more have 30 days either way.
   */
  @Test
  void aYearlyWindowOfThirtyDays() {
    Limit.Every limit = Limit.Every.of(Interval.parse("P12M")).window("P30D").tolerance("P30D");
    assertThat(afterDoing(limit, "1999-01-06")).isEqualTo("2000-01-06");
    assertThat(afterDoing(limit, "1999-01-07")).isEqualTo("2000-02-06");
    assertThat(afterDoing(limit, "1999-03-08")).isEqualTo("2000-02-06");
    assertThat(afterDoing(limit, "1999-03-09")).isEqualTo("2000-03-09");
  }

  private static String afterDoing(Limit.Every limit, String done) {
    LocalDate day = LocalDate.parse(done);
    History history = History.since(Reading.on(LocalDate.of(1998, 2, 6)), Reading.on(day));
    return on(limit, history, day).dueOn().toString();
  }

  /** TM-328 [V]: with two criteria each is judged apart; the one out of its window restarts. */
  @Test
  void eachCriterionHasItsOwnWindow() {
    Rule rule = Rule.first(SEVENTY_FIVE, Limit.Every.of(Interval.parse("P12M")).window("P30D"));
    Reading last = new Reading(LocalDate.of(1998, 2, 6), Usage.ofHours("1534.4"));
    Reading done = new Reading(LocalDate.of(1998, 9, 1), Usage.ofHours("1606.0"));
    List<Outcome> entries =
        Reckoner.reckon(
                rule,
                History.since(last, done),
                new Situation(LocalDate.of(1998, 9, 1), Usage.ofHours("1606.0")))
            .entries();
    assertThat(((LimitReckoning) entries.get(0)).dueAt()).hasToString("1684.4");
    assertThat(((LimitReckoning) entries.get(1)).dueOn()).isEqualTo("1999-09-01");
  }

  /** 14 CFR 39.9 and a leaflet on permitted variations [V/D], case 66: no tolerance of its own. */
  @Test
  void aDirectiveHasNoTolerance() {
    Limit.Every directive = Limit.Every.of(Counter.HOURS, "100");
    assertThat(at(directive, hours("1050"), "1150").spent()).isTrue();
    assertThat(at(directive, hours("1050"), "1150:00:01").state()).isEqualTo(State.OVERDUE);
  }

  /** GM M.A.305(d) [D], case 69: 5,000 cycles, 4,870 used. */
  @Test
  void aLifeLimit() {
    Counter cycles = new Counter("cycles");
    Limit life = Limit.Fixed.at(cycles, "5000");
    assertThat(beacon(life, cycles, "4870").left()).hasToString("130");
    assertThat(beacon(life, cycles, "4999").spent()).isFalse();
    assertThat(beacon(life, cycles, "5000").spent()).isTrue();
  }

  /** 14 CFR 91.417(a)(2), 91.421 [D], case 47: an overhaul leaves the total running. */
  @Test
  void anOverhaulIsAnOriginAndNotAReset() {
    Limit.Every overhaul = Limit.Every.of(Counter.HOURS, "2000").from("overhaul");
    LimitReckoning limit =
        Reckoner.reckon(
                Rule.first(overhaul),
                History.NONE.withOrigins(Map.of("overhaul", hours("1900"))),
                new Situation(LocalDate.of(2026, 1, 1), Usage.ofHours("1900")))
            .controllingLimit();
    assertThat(limit.left()).hasToString("2000");
    assertThat(limit.dueAt()).hasToString("3900");
  }

  /** 14 CFR 91.409(h) [V/D], case 70: what was used under the old programme counts in the new. */
  @Test
  void aChangeOfProgrammeCarriesOver() {
    Reading lastEquivalent = hours("940");
    Limit.Every inNewProgramme = Limit.Every.of(Counter.HOURS, "100");
    assertThat(at(inNewProgramme, lastEquivalent, "1000").left()).hasToString("40");
  }
}
