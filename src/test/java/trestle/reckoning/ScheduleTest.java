package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** From history to the next due point: one table a rule. */
class ScheduleTest {

  /** A row of readings, the first the baseline; all hours, or all dates. */
  record Case(String name, Limit.Every limit, List<String> rows, String due, boolean overrun) {}

  private static final Limit.Every HUNDRED = Limit.Every.of(Counter.HOURS, "100");
  private static final Limit.Every EN_ROUTE = HUNDRED.tolerance("10").keepSchedule();
  private static final Limit.Every YEAR = Limit.Every.of(Interval.parse("P12M"));
  private static final Limit.Every MONTH_END = YEAR.toMonthEnd();

  private static Case of(
      String name, Limit.Every limit, String due, boolean overrun, String... rows) {
    return new Case(name, limit, Arrays.asList(rows), due, overrun);
  }

  private static final List<Case> RESTART =
      List.of(
          of("baseline alone", HUNDRED, "1000", false, "900"),
          of("done early", HUNDRED, "1092", false, "900", "992"),
          of("done on the point", HUNDRED, "1100", false, "900", "1000"),
          of("done late", HUNDRED, "1106", true, "900", "1006"),
          of("done late within tolerance", HUNDRED.tolerance("10"), "1106", false, "900", "1006"),
          of("done at the tolerance", HUNDRED.tolerance("10"), "1110", false, "900", "1010"),
          of("done past it", HUNDRED.tolerance("10"), "1110.1", true, "900", "1010.1"),
          of("only the latest overrun counts", HUNDRED, "1250", false, "900", "1100", "1150"),
          of("no baseline: the first doing", HUNDRED, "1050", false, null, "950"),
          of("no baseline, two doings", HUNDRED, "1160", true, null, "950", "1060"),
          of("the same day twice", YEAR, "2026-05-01", false, "2025-05-01", "2025-05-01"),
          of("a year, late", YEAR, "2027-05-10", true, "2025-04-15", "2026-05-10"),
          of(
              "never chained",
              YEAR,
              "2029-02-28",
              false,
              "2024-02-29",
              "2025-02-28",
              "2026-02-28",
              "2027-02-28",
              "2028-02-28"));

  @TestFactory
  Stream<DynamicTest> restart() {
    return check(RESTART);
  }

  private static final List<Case> KEEP_SCHEDULE =
      List.of(
          of("done early", EN_ROUTE, "1092", false, "900", "992"),
          of("done late", EN_ROUTE, "1100", false, "900", "1006"),
          of("two periods late", EN_ROUTE, "1300", true, "900", "1206"),
          of("exactly a period late", EN_ROUTE, "1200", true, "900", "1100"),
          of("late, then early", EN_ROUTE, "1190", false, "900", "1006", "1090"),
          of("late, then late", EN_ROUTE, "1200", false, "900", "1006", "1104"),
          of("late, then on the point", EN_ROUTE, "1200", false, "900", "1006", "1100"),
          of(
              "month-end, late",
              MONTH_END.keepSchedule(),
              "2027-03-31",
              true,
              "2025-03-11",
              "2026-04-02"),
          of(
              "month-end, on its last day",
              MONTH_END.keepSchedule(),
              "2027-03-31",
              false,
              "2025-03-11",
              "2026-03-31"),
          of(
              "month-end, years late",
              MONTH_END.keepSchedule(),
              "2030-03-31",
              true,
              "2025-03-11",
              "2029-04-01"),
          of(
              "month-end, late but not to the next end",
              MONTH_END.keepSchedule(),
              "2029-03-31",
              true,
              "2025-03-11",
              "2029-03-30"),
          of(
              "31st, counted from the anchor",
              Limit.Every.of(Interval.parse("P1M")).keepSchedule(),
              "2025-03-31",
              true,
              "2025-01-31",
              "2025-03-01"));

  @TestFactory
  Stream<DynamicTest> keepSchedule() {
    return check(KEEP_SCHEDULE);
  }

  private static final Limit.Every WINDOW = HUNDRED.window("5");

  private static final List<Case> WINDOWS =
      List.of(
          of("early within it", WINDOW, "1100", false, "900", "995"),
          of("too early", WINDOW, "1094.9", false, "900", "994.9"),
          of(
              "late within it, still overrun without a tolerance",
              WINDOW,
              "1100",
              true,
              "900",
              "1005"),
          of(
              "late within it and the tolerance",
              WINDOW.tolerance("5"),
              "1100",
              false,
              "900",
              "1005"),
          of("too late", WINDOW, "1105.1", true, "900", "1005.1"),
          of("too late, keep-schedule", WINDOW.keepSchedule(), "1100", true, "900", "1005.1"),
          of("twice within it", WINDOW, "1200", false, "900", "996", "1096"),
          of("within it twice, then early", WINDOW, "1250", false, "900", "996", "1096", "1150"),
          of("an empty one", HUNDRED.window("0"), "1100", false, "900", "1000"),
          of(
              "by calendar, first day of it",
              YEAR.window("P30D"),
              "2027-06-01",
              false,
              "2025-06-01",
              "2026-05-02"),
          of(
              "by calendar, last day of it",
              YEAR.window("P30D").tolerance("P30D"),
              "2027-06-01",
              false,
              "2025-06-01",
              "2026-07-01"),
          of(
              "by calendar, a day too early",
              YEAR.window("P30D"),
              "2027-05-01",
              false,
              "2025-06-01",
              "2026-05-01"),
          of(
              "by calendar, a month from the 31st",
              YEAR.window("P1M").tolerance("P1M"),
              "2027-03-31",
              false,
              "2025-03-31",
              "2026-02-28"),
          of(
              "by calendar, a day before that month",
              YEAR.window("P1M"),
              "2027-02-27",
              false,
              "2025-03-31",
              "2026-02-27"),
          of(
              "around the month's end",
              MONTH_END.window("P1M"),
              "2027-03-31",
              false,
              "2025-03-11",
              "2026-02-28"));

  @TestFactory
  Stream<DynamicTest> window() {
    return check(WINDOWS);
  }

  private static final List<Case> WORKED =
      List.of(
          of("14 CFR 91.409(b): done at 1,006.0", EN_ROUTE, "1100", false, "900", "1006"),
          of("14 CFR 91.409(b): done at 992.0", EN_ROUTE, "1092", false, "900", "992"),
          of("12 calendar months", MONTH_END, "2026-03-31", false, null, "2025-03-11"),
          of(
              "12 months, tolerance P1M",
              YEAR.tolerance("P1M"),
              "2027-05-10",
              false,
              "2025-04-15",
              "2026-05-10"));

  @TestFactory
  Stream<DynamicTest> worked() {
    return check(WORKED);
  }

  private static Stream<DynamicTest> check(List<Case> table) {
    return Cases.each(table, Case::name, ScheduleTest::check);
  }

  private static void check(Case row) {
    List<Reading> readings =
        row.rows.stream().skip(1).map(text -> reading(row.limit, text)).toList();
    Reading baseline = row.rows.get(0) == null ? null : reading(row.limit, row.rows.get(0));
    Reckoning answer =
        Reckoner.reckon(
            Rule.first(row.limit),
            new History(baseline, readings),
            new Situation(LocalDate.of(2100, 1, 1), Usage.ofHours("5000")));
    LimitReckoning limit = answer.controllingLimit();
    String due = limit.isByCalendar() ? limit.dueOn().toString() : limit.dueAt().toString();
    assertThat(due).isEqualTo(row.due);
    assertThat(limit.overrun()).isEqualTo(row.overrun);
  }

  private static Reading reading(Limit.Every limit, String text) {
    return limit.scale() == Calendar.DAYS
        ? Reading.on(LocalDate.parse(text))
        : new Reading(null, Usage.ofHours(text));
  }
}
