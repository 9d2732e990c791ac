package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

class RuleWordsTest {

  record Case(Rule rule, String words) {}

  private static final Limit.Every HUNDRED = Limit.Every.of(Counter.HOURS, "100");
  private static final Limit.Every YEAR = Limit.Every.of(Interval.parse("P12M"));
  private static final Counter HEATER = new Counter("heater-hours");
  private static final Counter CYCLES = new Counter("engine-cycles");

  private static final List<Case> CASES =
      List.of(
          new Case(Rule.first(HUNDRED.tolerance("10")), "100 h, up to 10 h more"),
          new Case(Rule.first(YEAR.toMonthEnd()), "12 months to the month's end"),
          new Case(Rule.first(HUNDRED, YEAR), "100 h or 12 months, whichever comes first"),
          new Case(
              Rule.last(
                  Limit.Fixed.at(Counter.HOURS, "1000"),
                  Limit.Every.of(Counter.HOURS, "50").from("effective")),
              "before 1,000 h total or within 50 h of the effective date, whichever is later"),
          new Case(
              Rule.first(Limit.Every.of(Counter.HOURS, "2000").from("overhaul")),
              "2,000 h since overhaul"),
          new Case(Rule.first(Limit.Every.of(HEATER, "500")), "500 h of heater time"),
          new Case(Rule.first(Limit.Every.of(CYCLES, "1")), "1 engine cycle"),
          new Case(
              Rule.first(Limit.Fixed.at(CYCLES, "15000")).onlyOnce(),
              "before 15,000 engine cycles total, once"),
          new Case(Rule.first(Limit.Fixed.on(LocalDate.of(2027, 3, 31))), "by 2027-03-31"),
          new Case(
              Rule.first(Limit.Every.of(Interval.parse("P1M15D")).tolerance("P1W")),
              "1 month 15 days, up to 1 week more"),
          new Case(
              Rule.first(HUNDRED.keepSchedule().window("5")),
              "100 h, on schedule when done within 5 h, on schedule when late"),
          new Case(
              Rule.first(HUNDRED).withInitial(Group.first(Limit.Fixed.at(Counter.HOURS, "25.5"))),
              "first before 25.5 h total; then 100 h"),
          new Case(
              Rule.first(YEAR, Group.last(HUNDRED, Limit.Every.of(Counter.LANDINGS, "300"))),
              "12 months or (100 h or 300 landings, whichever is later), whichever comes first"),
          new Case(Rule.first(new Limit.With("annual")), "when the named work is next done"));

  @TestFactory
  Stream<DynamicTest> says() {
    return Cases.each(
        CASES, Case::words, row -> assertThat(RuleWords.every(row.rule)).isEqualTo(row.words));
  }
}
