package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** What only records bring: gaps in what is known, extensions, other work, initial and once. */
class RecordsTest {

  private static final LocalDate TODAY = LocalDate.of(2026, 3, 31);
  private static final Limit.Every HUNDRED = Limit.Every.of(Counter.HOURS, "100");
  private static final Limit OVERDUE = Limit.Fixed.on(LocalDate.of(2026, 1, 1));
  private static final Limit AHEAD = Limit.Fixed.on(LocalDate.of(2027, 1, 1));
  private static final Limit UNKNOWN = Limit.Fixed.at(Counter.LANDINGS, "100");

  record Gap(String name, Rule rule, History history, String now, State state, boolean spent) {}

  private static Reading hours(String hours) {
    return new Reading(null, Usage.ofHours(hours));
  }

  private static final Reading NOTHING = new Reading(null, Usage.NONE);

  private static final List<Gap> GAPS =
      List.of(
          new Gap(
              "no baseline", Rule.first(HUNDRED), History.NONE, "hours=5", State.UNKNOWN, false),
          new Gap(
              "a baseline without the counter",
              Rule.first(HUNDRED),
              History.since(NOTHING),
              "hours=5",
              State.UNKNOWN,
              false),
          new Gap(
              "a total that is not known",
              Rule.first(HUNDRED),
              History.since(hours("0")),
              "",
              State.UNKNOWN,
              false),
          new Gap(
              "an origin that is not known",
              Rule.first(HUNDRED.from("overhaul")),
              History.NONE,
              "hours=5",
              State.UNKNOWN,
              false),
          new Gap(
              "an origin without the counter",
              Rule.first(HUNDRED.from("overhaul")),
              History.NONE.withOrigins(Map.of("overhaul", NOTHING)),
              "hours=5",
              State.UNKNOWN,
              false),
          new Gap(
              "a doing without the counter",
              Rule.first(HUNDRED),
              History.since(hours("0"), NOTHING),
              "hours=5",
              State.UNKNOWN,
              false),
          new Gap(
              "restart finds its way again",
              Rule.first(HUNDRED),
              History.since(hours("0"), NOTHING, hours("50")),
              "hours=55",
              State.AHEAD,
              false),
          new Gap(
              "keep-schedule does not",
              Rule.first(HUNDRED.keepSchedule()),
              History.since(hours("0"), NOTHING, hours("50")),
              "hours=55",
              State.UNKNOWN,
              false),
          new Gap(
              "nor does a window",
              Rule.first(HUNDRED.window("5")),
              History.since(hours("0"), NOTHING, hours("50")),
              "hours=55",
              State.UNKNOWN,
              false),
          new Gap(
              "first: one unknown",
              Rule.first(AHEAD, UNKNOWN),
              History.NONE,
              "",
              State.UNKNOWN,
              false),
          new Gap(
              "first: overdue whatever the unknown is",
              Rule.first(UNKNOWN, OVERDUE),
              History.NONE,
              "",
              State.OVERDUE,
              true),
          new Gap(
              "last: one unknown",
              Rule.last(OVERDUE, UNKNOWN),
              History.NONE,
              "",
              State.UNKNOWN,
              false),
          new Gap(
              "last: ahead whatever the unknown is",
              Rule.last(UNKNOWN, AHEAD),
              History.NONE,
              "",
              State.AHEAD,
              false),
          new Gap(
              "first: spent by one, else unknown",
              Rule.first(UNKNOWN, at("100")),
              History.NONE,
              "hours=100",
              State.UNKNOWN,
              true));

  private static Limit at(String total) {
    return Limit.Fixed.at(Counter.HOURS, total);
  }

  @TestFactory
  Stream<DynamicTest> nothingIsGuessed() {
    return Cases.each(
        GAPS,
        Gap::name,
        row -> {
          Reckoning answer =
              Reckoner.reckon(row.rule, row.history, new Situation(TODAY, Usage.parse(row.now)));
          assertThat(answer.state()).isEqualTo(row.state);
          assertThat(answer.spent()).isEqualTo(row.spent);
          if (row.state == State.UNKNOWN) {
            assertThat(answer.controllingLimit().state()).isEqualTo(State.UNKNOWN);
          }
        });
  }

  @Test
  void aKnownDuePointIsToldAlsoWhileTheTotalIsNot() {
    LimitReckoning limit =
        Reckoner.reckon(
                Rule.first(HUNDRED), History.since(hours("900")), new Situation(TODAY, Usage.NONE))
            .controllingLimit();
    assertThat(limit.dueAt()).hasToString("1000");
    assertThat(limit.left()).isNull();
  }

  record Granted(
      String name, History history, String now, String due, State state, boolean overrun) {}

  private static final Limit.Every KEPT = HUNDRED.tolerance("2").keepSchedule();

  private static Extension to(String total, int afterDoings, Integer... path) {
    return Extension.to(Counter.HOURS.amount(total), afterDoings, List.of(path));
  }

  private static final List<Granted> GRANTED =
      List.of(
          new Granted(
              "this occurrence",
              History.since(hours("900")).withExtensions(to("1015", 0, 0)),
              "1010",
              "1015",
              State.AHEAD,
              false),
          new Granted(
              "used up",
              History.since(hours("900")).withExtensions(to("1015", 0, 0)),
              "1017.1",
              "1015",
              State.OVERDUE,
              false),
          new Granted(
              "tolerance on top of it",
              History.since(hours("900")).withExtensions(to("1015", 0, 0)),
              "1016",
              "1015",
              State.IN_TOLERANCE,
              false),
          new Granted(
              "the next counts from the scheduled point",
              History.since(hours("900"), hours("1014")).withExtensions(to("1015", 0, 0)),
              "1014",
              "1100",
              State.AHEAD,
              false),
          new Granted(
              "overrun is judged by the extension",
              History.since(hours("900"), hours("1018")).withExtensions(to("1015", 0, 0)),
              "1018",
              "1100",
              State.AHEAD,
              true),
          new Granted(
              "overrun without one",
              History.since(hours("900"), hours("1014")),
              "1014",
              "1100",
              State.AHEAD,
              true),
          new Granted(
              "the second occurrence",
              History.since(hours("900"), hours("1000")).withExtensions(to("1120", 1, 0)),
              "1110",
              "1120",
              State.AHEAD,
              false),
          new Granted(
              "what it extended is behind",
              History.since(hours("900")).withExtensions(to("995", 0, 0)),
              "990",
              "1000",
              State.AHEAD,
              false),
          new Granted(
              "the last one granted",
              History.since(hours("900")).withExtensions(to("1005", 0, 0), to("1008", 0, 0)),
              "1006",
              "1008",
              State.AHEAD,
              false),
          new Granted(
              "another limit's",
              History.since(hours("900")).withExtensions(to("1015", 0, 1)),
              "1010",
              "1000",
              State.OVERDUE,
              false),
          new Granted(
              "a path that goes on below a limit",
              History.since(hours("900")).withExtensions(to("1015", 0, 0, 0)),
              "1010",
              "1000",
              State.OVERDUE,
              false));

  @TestFactory
  Stream<DynamicTest> extensions() {
    return Cases.each(
        GRANTED,
        Granted::name,
        row -> {
          LimitReckoning limit =
              Reckoner.reckon(
                      Rule.first(KEPT), row.history, new Situation(TODAY, Usage.ofHours(row.now)))
                  .controllingLimit();
          assertThat(limit.dueAt()).hasToString(row.due);
          assertThat(limit.state()).isEqualTo(row.state);
          assertThat(limit.overrun()).isEqualTo(row.overrun);
        });
  }

  @Test
  void anExtensionReachesIntoAGroup() {
    Rule rule = Rule.first(at("5000"), Group.last(at("5000"), HUNDRED));
    Reckoning answer =
        Reckoner.reckon(
            rule,
            History.since(hours("900")).withExtensions(to("1015", 0, 1, 1)),
            new Situation(TODAY, Usage.ofHours("1010")));
    LimitReckoning limit = (LimitReckoning) ((Reckoning) answer.entries().get(1)).entries().get(1);
    assertThat(limit.extended()).isTrue();
    assertThat(limit.dueAt()).hasToString("1015");
  }

  @Test
  void anExtensionOfTheInitialGroupEndsWithIt() {
    Rule rule = Rule.first(KEPT).withInitial(Group.first(at("1000")));
    History granted = History.since(hours("900")).withExtensions(to("1050", 0, 0));
    assertThat(limit(rule, granted, "1040").dueAt()).hasToString("1050");
    History done =
        new History(hours("900"), List.of(hours("1040")), Map.of(), granted.extensions());
    assertThat(limit(rule, done, "1040").overrun())
        .as("the repeating limit was due at 1,000 and had no extension")
        .isTrue();
  }

  private static LimitReckoning limit(Rule rule, History history, String now) {
    Utilisation rate = Utilisation.of(Counter.HOURS, "1");
    return Reckoner.reckon(rule, history, new Situation(TODAY, Usage.ofHours(now), rate))
        .controllingLimit();
  }

  @Test
  void withOtherWorkItStandsAsThatWorkStands() {
    Reckoning other =
        Reckoner.reckon(
            Rule.first(HUNDRED.soon("10")),
            History.since(hours("900")),
            new Situation(TODAY, Usage.ofHours("995"), Utilisation.of(Counter.HOURS, "1")));
    Reckoning answer = with(new Companion(other, false));
    assertThat(answer.state()).isEqualTo(State.SOON);
    assertThat(answer.spent()).isFalse();
    assertThat(answer.projectedOn()).isEqualTo("2026-04-05");
  }

  @Test
  void onceTheOtherWorkWasDoneWithoutItItIsOverdue() {
    Reckoning answer = with(new Companion(reckoned(AHEAD), true));
    assertThat(answer.state()).isEqualTo(State.OVERDUE);
    assertThat(answer.spent()).isTrue();
    assertThat(answer.projectedOn()).isEqualTo(TODAY);
  }

  @Test
  void withOtherWorkThatIsUnknownOrOverItIsUnknown() {
    assertThat(with(null).state()).isEqualTo(State.UNKNOWN);
    assertThat(with(new Companion(reckoned(UNKNOWN), false)).state()).isEqualTo(State.UNKNOWN);
    assertThat(with(new Companion(Reckoning.DONE, false)).state()).isEqualTo(State.UNKNOWN);
    assertThat(with(new Companion(reckoned(OVERDUE), false)).spent()).isTrue();
  }

  private static Reckoning reckoned(Limit limit) {
    return Reckoner.reckon(Rule.first(limit), History.NONE, new Situation(TODAY, Usage.NONE));
  }

  private static Reckoning with(Companion other) {
    return Reckoner.reckon(
        Rule.first(new Limit.With("inspection")).onlyOnce(),
        History.NONE,
        new Situation(
            TODAY,
            Usage.NONE,
            Utilisation.NONE,
            other == null ? Map.of() : Map.of("inspection", other)));
  }

  @Test
  void theInitialGroupRulesUntilTheFirstDoing() {
    Rule rule = Rule.first(HUNDRED).withInitial(Group.last(at("1000"), HUNDRED.from("effective")));
    Map<String, Reading> origins = Map.of("effective", hours("980"));
    assertThat(limit(rule, History.since(hours("0")).withOrigins(origins), "500").dueAt())
        .hasToString("1080");
    assertThat(limit(rule, History.since(null, hours("1050")).withOrigins(origins), "1060").dueAt())
        .hasToString("1150");
  }

  @Test
  void onceDoneIsOver() {
    Rule rule = Rule.first(HUNDRED).onlyOnce();
    Situation now = new Situation(TODAY, Usage.ofHours("5000"));
    assertThat(Reckoner.reckon(rule, History.since(hours("0")), now).state())
        .as("a baseline is not a doing")
        .isEqualTo(State.OVERDUE);
    Reckoning done = Reckoner.reckon(rule, History.since(hours("0"), hours("90")), now);
    assertThat(done).isEqualTo(Reckoning.DONE);
    assertThat(done.controlling()).isEmpty();
    assertThat(done.controllingLimit()).isNull();
  }

  record Refused(String name, Supplier<Object> make) {}

  private static final List<Refused> REFUSED =
      List.of(
          new Refused("every of nothing", () -> Limit.Every.of(Counter.HOURS, "0")),
          new Refused(
              "an amount of another unit",
              () -> new Limit.Fixed(Counter.HOURS, 1, Counter.LANDINGS.amount("1"), null)),
          new Refused(
              "a period for a counter",
              () -> new Limit.Fixed(Counter.HOURS, 1, Interval.parse("P1D"), null)),
          new Refused("keep-schedule from an origin", () -> HUNDRED.from("new").keepSchedule()),
          new Refused("a window from an origin", () -> HUNDRED.from("new").window("1")),
          new Refused("a window as large as every", () -> HUNDRED.window("100")),
          new Refused(
              "month-end with days", () -> Limit.Every.of(Interval.parse("P90D")).toMonthEnd()),
          new Refused("month-end by use", HUNDRED::toMonthEnd),
          new Refused("no limits", Group::first),
          new Refused(
              "65 limits",
              () ->
                  new Rule(
                      new Group(Group.Combine.FIRST, java.util.Collections.nCopies(65, HUNDRED)),
                      null,
                      false)),
          new Refused("a counter's name", () -> Counter.parse("Hours")),
          new Refused("a negative total", () -> Usage.NONE.with(Counter.HOURS, -1)));

  @TestFactory
  Stream<DynamicTest> refusesWhatMakesNoSense() {
    return Cases.each(
        REFUSED,
        Refused::name,
        row ->
            assertThatThrownBy(() -> row.make.get()).isInstanceOf(IllegalArgumentException.class));
  }

  @Test
  void valuesSurviveTextAndBack() {
    Usage usage = Usage.parse("hours=1234.5 landings=2210");
    assertThat(Usage.parse(usage.toString())).isEqualTo(usage);
    assertThat(usage.total(Counter.parse("cycles"))).isEmpty();
    Reading reading = Reading.parse("2025-03-11 hours=1106");
    assertThat(Reading.parse(reading.toString())).isEqualTo(reading);
    assertThat(Reading.parse("- hours=1").on()).isNull();
    Utilisation rates = Utilisation.parse("hours=0.8 landings=1.25");
    assertThat(Utilisation.parse(rates.toString())).isEqualTo(rates).hasToString(rates.toString());
  }
}
