package trestle.apron;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Particulars;
import trestle.reckoning.Counter;
import trestle.reckoning.Entry;
import trestle.reckoning.Group;
import trestle.reckoning.History;
import trestle.reckoning.Hours;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Reading;
import trestle.reckoning.Reckoner;
import trestle.reckoning.Rule;
import trestle.reckoning.Scale;
import trestle.reckoning.Situation;
import trestle.reckoning.Usage;
import trestle.reckoning.Utilisation;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.Force;
import trestle.standing.Ground;
import trestle.standing.InWords;
import trestle.standing.LastDone;
import trestle.standing.Standing;
import trestle.standing.Subject;

/**
 * Which leg a recorded item runs out on: a table of cases, and the reckoner as a second opinion.
 */
class TripCheckTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
  private static final UUID AIRCRAFT = UUID.randomUUID();
  private static final Rule EACH_100 = Rule.first(Limit.Every.of(Counter.HOURS, "100"));
  private static final Rule EACH_100_OR_10_MORE =
      Rule.first(Limit.Every.of(Counter.HOURS, "100").tolerance("10").keepSchedule());
  private static final Rule EACH_YEAR = Rule.first(Limit.Every.of(Interval.ofMonths(12)));
  private static final Rule EACH_50_CYCLES =
      Rule.first(Limit.Every.of(new Counter("cycles"), "50"));

  record Case(String name, List<Sample> items, List<Ground> grounds, Trip trip, String expected) {
    @Override
    public String toString() {
      return name;
    }
  }

  static List<Case> cases() {
    return List.of(
        one(
            "well within",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1050"),
            trip("3.2 4"),
            "LASTS []"),
        one(
            "to the last second: the flight that ends at the limit lasts",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1096"),
            trip("2 1", "2 1"),
            "LASTS []"),
        one(
            "one second more does not",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1096"),
            trip("2 1", "2:00:01 1"),
            "RUNS_OUT [Inspection runs out on leg 2: 4.0 h left, and the trip takes 4.1 h by the"
                + " end of leg 2.]"),
        one(
            "on the first leg",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1098.55"),
            trip("1.5 1"),
            "RUNS_OUT [Inspection runs out on leg 1: 1.4 h left, and the trip takes 1.5 h on leg"
                + " 1.]"),
        one(
            "nothing is left for the last leg",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1096"),
            trip("4 1", "0.1 1"),
            "RUNS_OUT [Inspection runs out on leg 2: 4.0 h left, and the trip takes 4.1 h by the"
                + " end of leg 2.]"),
        one(
            "within its tolerance, and its condition is said",
            item(EACH_100_OR_10_MORE, "2026-10-01 hours=1000", "hours=1096")
                .condition("only to reach the place of work"),
            trip("4 1", "2 1"),
            "LASTS [Inspection is past due from leg 2: only in its tolerance, only to reach the"
                + " place of work.]"),
        one(
            "past its tolerance too",
            item(EACH_100_OR_10_MORE, "2026-10-01 hours=1000", "hours=1096"),
            trip("12 1", "2.1 1"),
            "RUNS_OUT [Inspection runs out on leg 2: 14.0 h left, and the trip takes 14.1 h by the"
                + " end of leg 2.]"),
        one(
            "ten times 0.1 h is 1.0 h",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1099"),
            trip("0.1", "0.1", "0.1", "0.1", "0.1", "0.1", "0.1", "0.1", "0.1", "0.1"),
            "LASTS []"),
        one(
            "by the calendar: back on the last day it is good",
            item(EACH_YEAR, "2025-11-27", "hours=0"),
            trip("2026-11-25 1", "2026-11-27 1"),
            "LASTS []"),
        one(
            "by the calendar: back the day after",
            item(EACH_YEAR, "2025-11-27", "hours=0"),
            trip("2026-11-25 1", "2026-11-28 1"),
            "RUNS_OUT [Inspection runs out on leg 2: good to 27 November 2026, and leg 2 is on 28"
                + " November 2026.]"),
        one(
            "by the calendar, in its tolerance",
            item(
                Rule.first(Limit.Every.of(Interval.ofMonths(12)).tolerance("P3D")),
                "2025-11-27",
                "hours=0"),
            trip("2026-11-30 1"),
            "LASTS [Inspection is past due from leg 1: only in its tolerance.]"),
        one(
            "by landings, singular and plural",
            item(
                Rule.first(Limit.Every.of(Counter.LANDINGS, "100")),
                "2026-10-01 landings=1000",
                "landings=1099"),
            trip("1 3"),
            "RUNS_OUT [Inspection runs out on leg 1: 1 landing left, and the trip takes 3 landings"
                + " on leg 1.]"),
        one(
            "cycles that are not stated are not guessed",
            item(EACH_50_CYCLES, "2026-10-01 cycles=100", "cycles=138"),
            trip("1 1"),
            "UNKNOWN [Inspection can’t be told: the trip’s cycles are not stated; 12 cycles"
                + " left.]"),
        one(
            "cycles that are stated",
            item(EACH_50_CYCLES, "2026-10-01 cycles=100", "cycles=138"),
            trip("1 1 12"),
            "LASTS []"),
        one(
            "other counters can't be told",
            item(
                Rule.first(Limit.Every.of(new Counter("heater-hours"), "100")),
                "2026-10-01 heater-hours=0",
                "heater-hours=95"),
            trip("1 1 1"),
            "UNKNOWN [Inspection can’t be told: the trip’s heater hours are not stated; 5.0 h"
                + " left.]"),
        one(
            "hours run out, whatever the cycles are",
            item(
                Rule.first(
                    Limit.Every.of(Counter.HOURS, "100"),
                    Limit.Every.of(new Counter("cycles"), "50")),
                "2026-10-01 hours=1000 cycles=100",
                "hours=1099 cycles=120"),
            trip("0.5 1", "1 1"),
            "RUNS_OUT [Inspection runs out on leg 2: 1.0 h left, and the trip takes 1.5 h by the"
                + " end of leg 2.]"),
        one(
            "whichever is later: one is out, the other is not",
            item(
                Rule.last(
                    Limit.Every.of(Counter.HOURS, "100"), Limit.Every.of(Interval.ofMonths(12))),
                "2026-10-01 hours=1000",
                "hours=1099"),
            trip("5 1"),
            "LASTS []"),
        one(
            "whichever is later: both are out on the second leg",
            item(
                Rule.last(
                    Limit.Every.of(Counter.HOURS, "100"), Limit.Every.of(Interval.ofMonths(12))),
                "2025-11-25 hours=1000",
                "hours=1099"),
            trip("2026-11-25 5", "2026-11-26 1"),
            "RUNS_OUT [Inspection runs out on leg 2: 1.0 h left, and the trip takes 6.0 h by the"
                + " end of leg 2, and good to 25 November 2026, and leg 2 is on 26 November"
                + " 2026.]"),
        one(
            "the initial limits hold until it has been done",
            item(
                EACH_100.withInitial(Group.first(Limit.Fixed.at(Counter.HOURS, "1060"))),
                "2026-10-01 hours=1000",
                "hours=1050"),
            trip("11 1"),
            "RUNS_OUT [Inspection runs out on leg 1: 10.0 h left, and the trip takes 11.0 h on leg"
                + " 1.]"),
        one(
            "what forbids only IFR says nothing of a day trip",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1099").forbids("IFR"),
            trip("5 1"),
            "LASTS []"),
        one(
            "what forbids only IFR does not last an IFR trip",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1099").forbids("IFR"),
            trip("0.5 1", "5 1").with("IFR"),
            "RUNS_OUT [Inspection runs out on leg 2, from there not IFR: 1.0 h left, and the trip"
                + " takes 5.5 h by the end of leg 2.]"),
        one(
            "already past its limit for hire",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1101").forbids("hire"),
            trip("1 1").with("hire"),
            "RUNS_OUT [Inspection runs out on leg 1, from there not for hire: past its limit"
                + " already.]"),
        one(
            "advice does not stand against it",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1099").recommended(),
            trip("2 1"),
            "LASTS [Inspection, which is recommended, runs out on leg 1: 1.0 h left, and the trip"
                + " takes 2.0 h on leg 1.]"),
        one(
            "a part, by its own hours",
            item(EACH_100, "2026-10-01 hours=400", "hours=499").on("Engine 1, serial E-1"),
            trip("2 1"),
            "RUNS_OUT [Inspection (Engine 1, serial E-1) runs out on leg 1: 1.0 h left, and the"
                + " trip takes 2.0 h on leg 1.]"),
        one(
            "held already: said once, by its standing",
            item(EACH_100, "2026-10-01 hours=1000", "hours=1101"),
            trip("1 1"),
            "HELD []"),
        one(
            "not known, so held already",
            item(EACH_100, "2026-10-01", "hours=1101").missing("No hours then."),
            trip("1 1"),
            "HELD [Inspection can’t be told. No hours then.]"),
        new Case(
            "a person has grounded it",
            List.of(item(EACH_100, "2026-10-01 hours=1000", "hours=1099")),
            List.of(Ground.held("Grounded: bird strike.", "/g")),
            trip("2 1").trip(),
            "HELD [Inspection runs out on leg 1: 1.0 h left, and the trip takes 2.0 h on leg 1.]"),
        new Case(
            "several, in the order of the legs",
            List.of(
                item(EACH_100, "2026-10-01 hours=1000", "hours=1097").titled("Oil"),
                item(EACH_YEAR, "2025-11-25", "hours=0").titled("Beacon"),
                item(EACH_50_CYCLES, "2026-10-01 cycles=100", "cycles=138").titled("Gear")),
            List.of(),
            trip("2026-11-25 2", "2026-11-26 2").trip(),
            "RUNS_OUT [Oil runs out on leg 2: 3.0 h left, and the trip takes 4.0 h by the end of"
                + " leg 2., Beacon runs out on leg 2: good to 25 November 2026, and leg 2 is on 26"
                + " November 2026., Gear can’t be told: the trip’s cycles are not stated; 12 cycles"
                + " left.]"));
  }

  @ParameterizedTest
  @MethodSource("cases")
  void theTripIsChecked(Case each) {
    TripCheck check = check(each.items(), each.grounds(), List.of(), each.trip());
    assertThat(
            check.verdict() + " " + check.findings().stream().map(TripFinding::sentence).toList())
        .isEqualTo(each.expected());
  }

  @Test
  void workDueWithOtherWorkLastsAsLongAsThatDoes() {
    Sample other = item(EACH_100, "2026-10-01 hours=1000", "hours=1099").titled("100 h");
    Sample with =
        item(Rule.first(new Limit.With(other.id.toString())), "2026-10-01", "hours=1099")
            .titled("Deferral");
    Trip trip = trip("0.5 1", "1 1").trip();
    Lasting lasting = Lasting.toTolerance(trip, List.of(with.build(), other.build()));
    assertThat(lasting.out(with.build())).isEqualTo(2);
    assertThat(Lasting.toTolerance(trip, List.of(with.build())).isUnknown(with.build())).isTrue();
  }

  @Test
  void workDueWithEachOtherEndsSomewhere() {
    Sample one = item(EACH_100, "2026-10-01", "hours=1099");
    Sample two = item(Rule.first(new Limit.With(one.id.toString())), "2026-10-01", "hours=1099");
    one.rule = Rule.first(new Limit.With(two.id.toString()));
    Lasting lasting = Lasting.toTolerance(trip("1 1").trip(), List.of(one.build(), two.build()));
    assertThat(lasting.isUnknown(one.build())).isTrue();
  }

  @Test
  void anOpenDeferralStandsAgainstTheKindItForbids() {
    Restriction night = new Restriction("night", "D-0231, not at night", ": landing light.", "/d");
    Sample fine = item(EACH_100, "2026-10-01 hours=1000", "hours=1050");
    assertThat(check(List.of(fine), List.of(), List.of(night), trip("1 1").trip()).lasts())
        .isTrue();
    TripCheck dark =
        check(List.of(fine), List.of(), List.of(night), trip("1 1").with("night").trip());
    assertThat(dark.words()).isEqualTo("It may not fly this trip.");
    assertThat(dark.findings().get(0).sentence()).isEqualTo("D-0231, not at night: landing light.");
  }

  @Test
  void whatADeferralForbidsIsReadAsPeopleWriteIt() {
    assertThat(Restriction.kinds("Night, ifr")).containsExactly("night", "IFR");
    assertThat(Restriction.kinds("for hire and at night")).containsExactly("hire", "night");
    assertThat(Restriction.kinds("flight over water; IFR"))
        .containsExactly("flight over water", "IFR");
    assertThat(Restriction.kinds("")).isEmpty();
  }

  @Test
  void legsFollowOneAnother() {
    Leg late = new Leg(1, TODAY.plusDays(1), 60, 1, null);
    Leg early = new Leg(2, TODAY, 60, 1, null);
    assertThatThrownBy(() -> new Trip(List.of(late, early), Set.of()))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Trip(List.of(), Set.of()))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** Spent where the leg begins, or one unit before it ends: reckoned again from the history. */
  @Test
  void theReckonerAgreesOnAThousandTrips() {
    Random random = new Random(20261125);
    int out = 0;
    for (int i = 0; i < 1_000; i++) {
      Sample sample = new Sample(Rule.first(limits(random)), "2026-10-01 hours=1000 landings=500");
      sample.rule = random.nextBoolean() ? sample.rule : new Rule(last(random), null, false);
      sample.usage =
          Usage.parse(
              "hours=" + (1000 + random.nextInt(60)) + " landings=" + (500 + random.nextInt(60)));
      List<Leg> legs = new ArrayList<>();
      LocalDate on = TODAY;
      for (int n = 1; n <= 4; n++) {
        on = on.plusDays(random.nextInt(12));
        legs.add(new Leg(n, on, 1 + random.nextInt(40_000), random.nextInt(15), null));
      }
      Trip trip = new Trip(legs, Set.of());
      Lasting lasting = Lasting.toTolerance(trip, List.of(sample.build()));
      for (int leg = 1; leg <= 4; leg++) {
        boolean expected = spentOnLeg(sample, trip, leg);
        assertThat(lasting.of(sample.build(), leg) == Lasting.Answer.OUT)
            .as("%s %s leg %s", sample.rule, trip, leg)
            .isEqualTo(expected);
        out += expected ? 1 : 0;
      }
    }
    assertThat(out).isBetween(500, 3_500);
  }

  private static boolean spentOnLeg(Sample sample, Trip trip, int leg) {
    Usage at = sample.usage;
    for (Counter counter : List.of(Counter.HOURS, Counter.LANDINGS)) {
      long before = trip.used(counter, leg - 1);
      long just = Math.max(before, trip.used(counter, leg) - 1);
      at = at.with(counter, at.units(counter) + just);
    }
    return Reckoner.reckon(
            sample.rule, sample.history(), new Situation(trip.legs().get(leg - 1).on(), at))
        .spent();
  }

  private static Group last(Random random) {
    return Group.last(Group.first(limits(random)), limits(random)[0]);
  }

  private static Entry[] limits(Random random) {
    Limit.Every hours = Limit.Every.of(Counter.HOURS, "" + (50 + random.nextInt(40)));
    Limit.Every landings = Limit.Every.of(Counter.LANDINGS, "" + (50 + random.nextInt(60)));
    Limit.Every days = Limit.Every.of(Interval.ofDays(50 + random.nextInt(60)));
    return new Entry[] {
      random.nextBoolean() ? hours : hours.tolerance("5"),
      random.nextBoolean() ? landings : landings.tolerance("10"),
      random.nextBoolean() ? days : days.tolerance("P5D")
    };
  }

  private static TripCheck check(
      List<Sample> items, List<Ground> grounds, List<Restriction> restrictions, Trip trip) {
    List<DueItem> built = items.stream().map(Sample::build).toList();
    Standing standing = Standing.of(built, grounds, new InWords(HoursStyle.TENTHS));
    AircraftSheet sheet =
        new AircraftSheet(AIRCRAFT, UUID.randomUUID(), Particulars.of("QX-ABC", "Skerry 200", "1"));
    return TripCheck.of(new AircraftStanding(sheet, standing, built), restrictions, trip);
  }

  private static Case one(String name, Sample item, Planned trip, String expected) {
    return new Case(name, List.of(item), List.of(), trip.trip(), expected);
  }

  /** Legs as "[date] hours [landings [cycles]]". */
  private static Planned trip(String... legs) {
    List<Leg> read = new ArrayList<>();
    for (String leg : legs) {
      String text = leg.matches("\\d{4}-.*") ? leg : TODAY + " " + leg;
      String[] parts = text.split(" ");
      read.add(
          new Leg(
              read.size() + 1,
              LocalDate.parse(parts[0]),
              Hours.parse(parts[1]).seconds(),
              parts.length > 2 ? Long.parseLong(parts[2]) : 1,
              parts.length > 3 ? Long.valueOf(parts[3]) : null));
    }
    return new Planned(new Trip(read, Set.of()));
  }

  private record Planned(Trip trip) {
    Planned with(String... kinds) {
      return new Planned(new Trip(trip.legs(), Set.of(kinds)));
    }
  }

  private static Sample item(Rule rule, String baseline, String usage) {
    Sample sample = new Sample(rule, baseline);
    sample.usage = Usage.parse(usage);
    return sample;
  }

  /** One due item, reckoned from a baseline; a plain inspection until told otherwise. */
  private static final class Sample {
    private final UUID id = UUID.randomUUID();
    private final Reading baseline;
    private Rule rule;
    private Usage usage;
    private String title = "Inspection";
    private Force force = Force.MANDATORY;
    private String forbids = DueItem.ANY_FLIGHT;
    private String condition = "";
    private List<String> missing = List.of();
    private Subject subject = new Subject("aircraft", AIRCRAFT, AIRCRAFT, "QX-ABC");

    Sample(Rule rule, String baseline) {
      this.rule = rule;
      this.baseline = Reading.parse(baseline);
    }

    Sample titled(String words) {
      title = words;
      return this;
    }

    Sample recommended() {
      force = Force.RECOMMENDED;
      return this;
    }

    Sample forbids(String words) {
      forbids = words;
      return this;
    }

    Sample condition(String words) {
      condition = words;
      return this;
    }

    Sample missing(String sentence) {
      missing = List.of(sentence);
      return this;
    }

    Sample on(String words) {
      subject = new Subject("engine", UUID.randomUUID(), AIRCRAFT, words);
      return this;
    }

    History history() {
      return new History(baseline, List.of());
    }

    DueItem build() {
      Map<String, trestle.reckoning.Companion> companions = new HashMap<>();
      return new DueItem(
          id,
          id,
          subject,
          title,
          "inspection",
          force,
          forbids,
          false,
          condition,
          "",
          null,
          null,
          rule,
          "",
          new LastDone(UUID.randomUUID(), null, baseline, true, null),
          usage,
          Utilisation.NONE,
          List.of(),
          missing,
          Reckoner.reckon(
              rule, history(), new Situation(TODAY, usage, Utilisation.NONE, companions)),
          "/requirements/" + id);
    }
  }

  @Test
  void anUnknownAmountIsNeverZero() {
    Leg leg = new Leg(1, TODAY, 60, 0, null);
    assertThat(leg.adds(new Counter("cycles"))).isEqualTo(Scale.UNKNOWN);
    assertThat(leg.adds(new Counter("flight-hours"))).isEqualTo(Scale.UNKNOWN);
    assertThat(leg.adds(Counter.LANDINGS)).isZero();
  }
}
