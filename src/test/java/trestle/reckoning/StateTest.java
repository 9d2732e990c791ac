package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/** State, spent, groups, projection and the controlling entry. */
class StateTest {

  private static final LocalDate TODAY = LocalDate.of(2026, 3, 31);

  record ByUse(String name, String at, String soon, String tolerance, State state, boolean spent) {}

  /** Due at 1,000. */
  private static final List<ByUse> BY_USE =
      List.of(
          new ByUse("more left than soon", "989.99", "10", null, State.AHEAD, false),
          new ByUse("as much left as soon", "990", "10", null, State.SOON, false),
          new ByUse("a second left", "999:59:59", "10", null, State.SOON, false),
          new ByUse("without soon", "999:59:59", null, null, State.AHEAD, false),
          new ByUse("soon of nothing", "999:59:59", "0", null, State.AHEAD, false),
          new ByUse("nothing left", "1000", "10", null, State.DUE, true),
          new ByUse("nothing left, tolerance", "1000", "10", "10", State.DUE, false),
          new ByUse("past due without tolerance", "1000:00:01", "10", null, State.OVERDUE, true),
          new ByUse("within tolerance", "1000:00:01", "10", "10", State.IN_TOLERANCE, false),
          new ByUse(
              "a second short of tolerance", "1009:59:59", null, "10", State.IN_TOLERANCE, false),
          new ByUse("tolerance used up", "1010", null, "10", State.IN_TOLERANCE, true),
          new ByUse("past tolerance", "1010:00:01", null, "10", State.OVERDUE, true),
          new ByUse("a tolerance of nothing", "1000", null, "0", State.DUE, true));

  @TestFactory
  Stream<DynamicTest> byUse() {
    return Cases.each(
        BY_USE,
        ByUse::name,
        row -> {
          Limit limit =
              new Limit.Fixed(
                  Counter.HOURS,
                  Hours.parse("1000").seconds(),
                  row.soon == null ? null : Counter.HOURS.amount(row.soon),
                  row.tolerance == null ? null : Counter.HOURS.amount(row.tolerance));
          Reckoning answer = reckon(Rule.first(limit), Usage.ofHours(row.at), TODAY);
          assertThat(answer.state()).isEqualTo(row.state);
          assertThat(answer.spent()).isEqualTo(row.spent);
        });
  }

  record ByCalendar(
      String name, String today, String soon, String tolerance, State state, boolean spent) {}

  /** Due on 2026-03-31. */
  private static final List<ByCalendar> BY_CALENDAR =
      List.of(
          new ByCalendar("before soon", "2026-02-28", "P30D", null, State.AHEAD, false),
          new ByCalendar("from soon on", "2026-03-01", "P30D", null, State.SOON, false),
          new ByCalendar("soon a month before", "2026-02-28", "P1M", null, State.SOON, false),
          new ByCalendar("a day before that month", "2026-02-27", "P1M", null, State.AHEAD, false),
          new ByCalendar("the day before due", "2026-03-30", "P1D", null, State.SOON, false),
          new ByCalendar("without soon", "2026-03-30", null, null, State.AHEAD, false),
          new ByCalendar(
              "on the due date, the last good day", "2026-03-31", "P30D", null, State.DUE, false),
          new ByCalendar("the day after", "2026-04-01", null, null, State.OVERDUE, true),
          new ByCalendar(
              "the day after, tolerance", "2026-04-01", null, "P1M", State.IN_TOLERANCE, false),
          new ByCalendar(
              "the tolerance's last day", "2026-04-30", null, "P1M", State.IN_TOLERANCE, false),
          new ByCalendar("the day after that", "2026-05-01", null, "P1M", State.OVERDUE, true));

  @TestFactory
  Stream<DynamicTest> byCalendar() {
    return Cases.each(
        BY_CALENDAR,
        ByCalendar::name,
        row -> {
          Limit limit =
              new Limit.Fixed(
                  Calendar.DAYS,
                  TODAY.toEpochDay(),
                  row.soon == null ? null : Interval.parse(row.soon),
                  row.tolerance == null ? null : Interval.parse(row.tolerance));
          Reckoning answer = reckon(Rule.first(limit), Usage.NONE, LocalDate.parse(row.today));
          assertThat(answer.state()).isEqualTo(row.state);
          assertThat(answer.spent()).isEqualTo(row.spent);
        });
  }

  /** A limit that stands as named: its counter is at 100. */
  private static Limit standing(State state) {
    String at =
        switch (state) {
          case AHEAD -> "200";
          case SOON -> "105";
          case DUE -> "100";
          case IN_TOLERANCE -> "95";
          default -> "50";
        };
    return new Limit.Fixed(
        Counter.HOURS,
        Hours.parse(at).seconds(),
        Counter.HOURS.amount("10"),
        Counter.HOURS.amount("10"));
  }

  record Together(
      String name, Group group, State state, boolean spent, List<Integer> controlling) {}

  private static final Limit AHEAD = standing(State.AHEAD);
  private static final Limit SOON = standing(State.SOON);
  private static final Limit DUE = standing(State.DUE);
  private static final Limit LATE = standing(State.IN_TOLERANCE);
  private static final Limit OVER = standing(State.OVERDUE);

  /** Used at 10 h a day: AHEAD is used up in 10 days, SOON in 1. */
  private static final List<Together> TOGETHER =
      List.of(
          new Together(
              "first: the worst",
              Group.first(AHEAD, LATE, DUE),
              State.IN_TOLERANCE,
              false,
              List.of(1)),
          new Together(
              "first: any spent", Group.first(AHEAD, OVER), State.OVERDUE, true, List.of(1)),
          new Together(
              "last: the best", Group.last(OVER, SOON, DUE), State.SOON, false, List.of(1)),
          new Together("last: all spent", Group.last(OVER, OVER), State.OVERDUE, true, List.of(0)),
          new Together(
              "first: the earliest of those not due",
              Group.first(AHEAD, SOON),
              State.SOON,
              false,
              List.of(1)),
          new Together(
              "last: the latest of those not due",
              Group.last(SOON, AHEAD),
              State.AHEAD,
              false,
              List.of(1)),
          new Together(
              "first: the first listed of equals",
              Group.first(SOON, SOON),
              State.SOON,
              false,
              List.of(0)),
          new Together(
              "last: the first listed of equals",
              Group.last(SOON, SOON),
              State.SOON,
              false,
              List.of(0)),
          new Together(
              "first in last",
              Group.last(Group.first(AHEAD, OVER), DUE),
              State.DUE,
              false,
              List.of(1)),
          new Together(
              "last in first",
              Group.first(AHEAD, Group.last(DUE, OVER)),
              State.DUE,
              false,
              List.of(1, 0)),
          new Together(
              "down three levels",
              Group.first(Group.last(Group.first(AHEAD, OVER))),
              State.OVERDUE,
              true,
              List.of(0, 0, 1)));

  @TestFactory
  Stream<DynamicTest> groups() {
    return Cases.each(
        TOGETHER,
        Together::name,
        row -> {
          Reckoning answer =
              Reckoner.reckon(
                  new Rule(row.group, null, false),
                  History.NONE,
                  new Situation(TODAY, Usage.ofHours("100"), Utilisation.of(Counter.HOURS, "10")));
          assertThat(answer.state()).isEqualTo(row.state);
          assertThat(answer.spent()).isEqualTo(row.spent);
          assertThat(answer.controlling()).isEqualTo(row.controlling);
        });
  }

  record Projected(String name, Group group, String rates, String on, boolean lacksRate) {}

  private static final Limit LANDINGS = Limit.Fixed.at(Counter.LANDINGS, "1500");
  private static final Limit IN_APRIL = Limit.Fixed.on(LocalDate.of(2026, 4, 15));
  private static final Limit PAST = Limit.Fixed.on(LocalDate.of(2026, 3, 30));

  private static Limit at(String total) {
    return Limit.Fixed.at(Counter.HOURS, total);
  }

  /** Now 100 h and 1,000 landings. */
  private static final List<Projected> PROJECTED =
      List.of(
          new Projected("exactly", Group.first(at("108")), "hours=0.8", "2026-04-10", false),
          new Projected("rounded up", Group.first(at("108.01")), "hours=0.8", "2026-04-11", false),
          new Projected("a second", Group.first(at("100:00:01")), "hours=24", "2026-04-01", false),
          new Projected("landings", Group.first(LANDINGS), "landings=2.5", "2026-10-17", false),
          new Projected("four places", Group.first(at("101")), "hours=0.0001", "2053-08-16", false),
          new Projected("no rate", Group.first(at("101")), "", null, true),
          new Projected("a rate of zero", Group.first(at("101")), "hours=0", null, false),
          new Projected(
              "past the year 9999", Group.first(at("10000000")), "hours=0.0001", null, false),
          new Projected("nothing left, no rate", Group.first(at("100")), "", "2026-03-31", false),
          new Projected("past due", Group.first(at("90")), "hours=1", "2026-03-31", false),
          new Projected("by calendar", Group.first(IN_APRIL), "", "2026-04-15", false),
          new Projected("by calendar, past", Group.first(PAST), "", "2026-03-31", false),
          new Projected(
              "first: the earliest known",
              Group.first(at("200"), IN_APRIL),
              "",
              "2026-04-15",
              true),
          new Projected(
              "last: the latest", Group.last(at("200"), IN_APRIL), "hours=1", "2026-07-09", false),
          new Projected(
              "last: none if any is none", Group.last(at("200"), IN_APRIL), "", null, true));

  @TestFactory
  Stream<DynamicTest> projections() {
    return Cases.each(
        PROJECTED,
        Projected::name,
        row -> {
          Reckoning answer =
              Reckoner.reckon(
                  new Rule(row.group, null, false),
                  History.NONE,
                  new Situation(
                      TODAY, Usage.parse("hours=100 landings=1000"), Utilisation.parse(row.rates)));
          assertThat(answer.projectedOn())
              .isEqualTo(row.on == null ? null : LocalDate.parse(row.on));
          assertThat(answer.lacksRate()).isEqualTo(row.lacksRate);
        });
  }

  /** What bites first may be ahead while another is already soon. */
  @org.junit.jupiter.api.Test
  void controlsByProjectionAndNotBySoon() {
    Limit soonButSlow =
        new Limit.Fixed(Counter.LANDINGS, 1_010, Counter.LANDINGS.amount("50"), null);
    Reckoning answer =
        Reckoner.reckon(
            Rule.first(soonButSlow, at("101")),
            History.NONE,
            new Situation(
                TODAY,
                Usage.parse("hours=100 landings=1000"),
                Utilisation.parse("hours=1 landings=0.01")));
    assertThat(answer.state()).isEqualTo(State.SOON);
    assertThat(answer.controlling()).containsExactly(1);
    assertThat(answer.controllingLimit().state()).isEqualTo(State.AHEAD);
  }

  private static Reckoning reckon(Rule rule, Usage now, LocalDate today) {
    return Reckoner.reckon(rule, History.NONE, new Situation(today, now));
  }
}
