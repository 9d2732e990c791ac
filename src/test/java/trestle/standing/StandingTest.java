package trestle.standing;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import trestle.reckoning.Counter;
import trestle.reckoning.Group;
import trestle.reckoning.History;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Reading;
import trestle.reckoning.Reckoner;
import trestle.reckoning.Rule;
import trestle.reckoning.Situation;
import trestle.reckoning.Usage;
import trestle.reckoning.Utilisation;

/** The cases of an aircraft's standing, as the project's own rules tell them. */
class StandingTest {

  private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
  private static final Rule EACH_100 = Rule.first(Limit.Every.of(Counter.HOURS, "100"));
  private static final Rule EACH_100_OR_10_MORE =
      Rule.first(Limit.Every.of(Counter.HOURS, "100").tolerance("10").keepSchedule());
  private static final Rule EACH_YEAR = Rule.first(Limit.Every.of(Interval.ofMonths(12)));

  record Case(String name, List<DueItem> items, List<Ground> grounds, String expected) {
    @Override
    public String toString() {
      return name;
    }
  }

  static List<Case> cases() {
    return List.of(
        one("nothing due", item(EACH_100, "2026-10-01 hours=1000", "1050"), "CLEAR"),
        one(
            "at its limit without tolerance",
            item(EACH_100, "2026-10-01 hours=1000", "1100"),
            "HELD [Inspection: at its limit, nothing left.]"),
        one(
            "past its limit: what is used is rounded up",
            item(EACH_100, "2026-10-01 hours=1000", "1102.25"),
            "HELD [Inspection: 2.3 h past its limit.]"),
        one(
            "in its tolerance: what is left is rounded down",
            item(EACH_100_OR_10_MORE, "2026-10-01 hours=1000", "1101.55")
                .condition("only to reach the place of work"),
            "LIMITED [Inspection is in its tolerance: only to reach the place of work, 8.4 h"
                + " left.]"),
        one(
            "at zero with some left",
            item(EACH_100_OR_10_MORE, "2026-10-01 hours=1000", "1100"),
            "LIMITED [Inspection is in its tolerance: 10.0 h left.]"),
        one(
            "its tolerance used up to the last second",
            item(EACH_100_OR_10_MORE, "2026-10-01 hours=1000", "1110"),
            "HELD [Inspection: 10.0 h past its limit, its tolerance used up.]"),
        one(
            "by the calendar: the due date is the last day it is good",
            item(EACH_YEAR, "2025-11-25", "0"),
            "CLEAR"),
        one(
            "by the calendar: the day after",
            item(EACH_YEAR, "2025-11-24", "0"),
            "HELD [Inspection: 1 day past its limit.]"),
        one(
            "by the calendar, in its tolerance",
            item(
                Rule.first(Limit.Every.of(Interval.ofMonths(12)).tolerance("P1M")),
                "2025-11-10",
                "0"),
            "LIMITED [Inspection is in its tolerance: until 10 December 2026.]"),
        one(
            "forbids only IFR",
            item(EACH_100, "2026-10-01 hours=1000", "1102").forbids("IFR"),
            "LIMITED [Inspection, not IFR: 2.0 h past its limit.]"),
        one(
            "forbids only hire, and not known",
            item(EACH_100, "2026-10-01", "1102").forbids("hire").missing("No hours then."),
            "LIMITED [Inspection, not for hire: cannot be reckoned. No hours then.]"),
        one(
            "not known",
            item(EACH_100, "2026-10-01", "1102").missing("The hours when last done are missing."),
            "HELD [Inspection cannot be reckoned. The hours when last done are missing.]"),
        one(
            "advice never holds",
            item(EACH_100, "2026-10-01 hours=1000", "1500").force(Force.RECOMMENDED),
            "CLEAR"),
        one(
            "a life limit of a part",
            item(
                    new Rule(Group.first(Limit.Every.of(Counter.HOURS, "100")), null, true),
                    "2026-10-01 hours=1000",
                    "1100.5")
                .kind("life-limit")
                .subject("Engine 1, serial E-1"),
            "HELD [Inspection (Engine 1, serial E-1): life limit reached, 0.5 h past its limit.]"),
        one(
            "whichever is later: one is spent, the other is not",
            item(
                Rule.last(
                    Limit.Every.of(Counter.HOURS, "100"), Limit.Every.of(Interval.ofMonths(12))),
                "2026-10-01 hours=1000",
                "1150"),
            "CLEAR"),
        one(
            "whichever is first: both are named",
            item(
                Rule.first(
                    Limit.Every.of(Counter.HOURS, "100"), Limit.Every.of(Interval.ofMonths(12))),
                "2025-11-20 hours=1000",
                "1150"),
            "HELD [Inspection: 50.0 h past its limit, and 5 days past its limit.]"),
        new Case(
            "all reasons, those that hold first",
            List.of(
                item(EACH_100_OR_10_MORE, "2026-10-01 hours=1000", "1101").build(),
                item(EACH_100, "2026-10-01 hours=1000", "1101").build()),
            List.of(
                Ground.held("Grounded by I. Tarn: bird strike.", "/g"),
                Ground.limited("Check flight outstanding: no passengers.", "/c")),
            "HELD [Inspection: 1.0 h past its limit., Grounded by I. Tarn: bird strike.,"
                + " Inspection is in its tolerance: 9.0 h left.,"
                + " Check flight outstanding: no passengers.]"));
  }

  @ParameterizedTest
  @MethodSource("cases")
  void standingIs(Case each) {
    Standing standing = Standing.of(each.items(), each.grounds(), new InWords(HoursStyle.TENTHS));
    assertThat(told(standing)).isEqualTo(each.expected());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void everyReasonLeadsToItsRecord(Case each) {
    Standing standing = Standing.of(each.items(), each.grounds(), new InWords(HoursStyle.TENTHS));
    assertThat(standing.reasons()).allMatch(reason -> reason.link().startsWith("/"));
  }

  private static String told(Standing standing) {
    return standing.isClear()
        ? "CLEAR"
        : standing.word() + " " + standing.reasons().stream().map(Reason::sentence).toList();
  }

  private static Case one(String name, ItemSample item, String expected) {
    return new Case(name, List.of(item.build()), List.of(), expected);
  }

  private static ItemSample item(Rule rule, String baseline, String hours) {
    return new ItemSample(rule, Reading.parse(baseline), Usage.ofHours(hours));
  }

  /** One due item, reckoned from a baseline; a plain inspection until told otherwise. */
  static final class ItemSample {
    private final Rule rule;
    private final Reading baseline;
    private final Usage usage;
    private String kind = "inspection";
    private Force force = Force.MANDATORY;
    private String forbids = DueItem.ANY_FLIGHT;
    private String condition = "";
    private List<String> missing = List.of();
    private Subject subject = new Subject("aircraft", UUID.randomUUID(), null, "QX-ABC");

    ItemSample(Rule rule, Reading baseline, Usage usage) {
      this.rule = rule;
      this.baseline = baseline;
      this.usage = usage;
    }

    ItemSample kind(String kind) {
      this.kind = kind;
      return this;
    }

    ItemSample force(Force force) {
      this.force = force;
      return this;
    }

    ItemSample forbids(String forbids) {
      this.forbids = forbids;
      return this;
    }

    ItemSample condition(String condition) {
      this.condition = condition;
      return this;
    }

    ItemSample missing(String sentence) {
      this.missing = List.of(sentence);
      return this;
    }

    ItemSample subject(String words) {
      this.subject = new Subject("engine", UUID.randomUUID(), null, words);
      return this;
    }

    DueItem build() {
      UUID id = UUID.randomUUID();
      return new DueItem(
          id,
          id,
          subject,
          "Inspection",
          kind,
          force,
          forbids,
          false,
          condition,
          "",
          null,
          null,
          rule,
          "",
          null,
          usage,
          Utilisation.NONE,
          List.of(),
          missing,
          Reckoner.reckon(rule, new History(baseline, List.of()), new Situation(TODAY, usage)),
          "/requirements/" + id);
    }
  }
}
