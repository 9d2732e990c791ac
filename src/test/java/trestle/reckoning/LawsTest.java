package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

/** What must hold whatever the numbers are. */
class LawsTest {

  private static final LocalDate TODAY = LocalDate.of(2026, 3, 31);
  private static final Situation NOW =
      new Situation(
          TODAY, Usage.parse("hours=1000 landings=2000"), Utilisation.parse("hours=1 landings=2"));

  @Provide
  Arbitrary<Limit> limits() {
    Arbitrary<Limit> hours =
        Combinators.combine(Arbitraries.longs().between(900, 1_100), tolerances())
            .as(
                (at, tolerance) ->
                    new Limit.Fixed(
                        Counter.HOURS,
                        at * 3_600,
                        Counter.HOURS.amount("20"),
                        tolerance == 0 ? null : Counter.HOURS.amount("" + tolerance)));
    Arbitrary<Limit> dates =
        Combinators.combine(Arbitraries.longs().between(-90, 90), tolerances())
            .as(
                (days, tolerance) ->
                    new Limit.Fixed(
                        Calendar.DAYS,
                        TODAY.toEpochDay() + days,
                        Interval.parse("P20D"),
                        tolerance == 0 ? null : Interval.ofDays(tolerance)));
    return Arbitraries.oneOf(hours, dates);
  }

  private static Arbitrary<Integer> tolerances() {
    return Arbitraries.integers().between(0, 30);
  }

  private static Reckoning reckon(Group group) {
    return Reckoner.reckon(new Rule(group, null, false), History.NONE, NOW);
  }

  @Property
  void aGroupOfOneIsItsLimit(@ForAll("limits") Limit limit) {
    Reckoning first = reckon(Group.first(limit));
    assertThat(reckon(Group.last(limit))).isEqualTo(first);
    assertThat(first.state()).isEqualTo(first.entries().get(0).state());
    assertThat(first.spent()).isEqualTo(first.entries().get(0).spent());
    assertThat(first.projectedOn()).isEqualTo(first.entries().get(0).projectedOn());
  }

  @Property
  void firstIsNeverBetterThanLast(
      @ForAll @Size(min = 1, max = 6) List<@net.jqwik.api.From("limits") Limit> limits) {
    Reckoning first = reckon(new Group(Group.Combine.FIRST, List.copyOf(limits)));
    Reckoning last = reckon(new Group(Group.Combine.LAST, List.copyOf(limits)));
    assertThat(first.state()).isGreaterThanOrEqualTo(last.state());
    assertThat(first.projectedOn()).isBeforeOrEqualTo(last.projectedOn());
    assertThat(!last.spent() || first.spent()).isTrue();
  }

  @Property
  void orderDoesNotMatter(
      @ForAll @Size(min = 1, max = 6) List<@net.jqwik.api.From("limits") Limit> limits,
      @ForAll Group.Combine combine) {
    List<Entry> turned = new ArrayList<>(limits);
    Collections.reverse(turned);
    Reckoning one = reckon(new Group(combine, List.copyOf(limits)));
    Reckoning other = reckon(new Group(combine, turned));
    assertThat(other.state()).isEqualTo(one.state());
    assertThat(other.spent()).isEqualTo(one.spent());
    assertThat(other.projectedOn()).isEqualTo(one.projectedOn());
    assertThat(other.controllingLimit().state()).isEqualTo(one.controllingLimit().state());
  }

  @Property
  void nestingTheSameCombinationChangesNothing(
      @ForAll("limits") Limit a,
      @ForAll("limits") Limit b,
      @ForAll("limits") Limit c,
      @ForAll Group.Combine combine) {
    Reckoning flat = reckon(new Group(combine, List.of(a, b, c)));
    Reckoning nested = reckon(new Group(combine, List.of(a, new Group(combine, List.of(b, c)))));
    assertThat(nested.state()).isEqualTo(flat.state());
    assertThat(nested.spent()).isEqualTo(flat.spent());
    assertThat(nested.projectedOn()).isEqualTo(flat.projectedOn());
    assertThat(nested.controllingLimit()).isEqualTo(flat.controllingLimit());
  }

  @Property
  void addingALimitMakesFirstNoBetterAndLastNoWorse(
      @ForAll("limits") Limit a, @ForAll("limits") Limit b) {
    assertThat(reckon(Group.first(a, b)).state())
        .isGreaterThanOrEqualTo(reckon(Group.first(a)).state());
    assertThat(reckon(Group.last(a, b)).state()).isLessThanOrEqualTo(reckon(Group.last(a)).state());
  }

  @Property
  void aLaterDoingNeverMakesItDueEarlierUnderRestart(
      @ForAll @IntRange(min = 1, max = 500) int every,
      @ForAll @IntRange(min = 0, max = 2_000) int done,
      @ForAll @IntRange(min = 0, max = 500) int later,
      @ForAll @IntRange(min = 1, max = 60) int months) {
    long early = due(Limit.Every.of(Counter.HOURS, "" + every), hours(done));
    long late = due(Limit.Every.of(Counter.HOURS, "" + every), hours(done + later));
    assertThat(late).isGreaterThanOrEqualTo(early);
    for (Limit.Every limit :
        List.of(
            Limit.Every.of(Interval.ofMonths(months)),
            Limit.Every.of(Interval.ofMonths(months)).toMonthEnd())) {
      assertThat(due(limit, day(done + later))).isGreaterThanOrEqualTo(due(limit, day(done)));
    }
  }

  private static long due(Limit.Every limit, Reading done) {
    Reading baseline = new Reading(LocalDate.of(2020, 1, 31), Usage.ofHours("0"));
    return Reckoner.reckon(Rule.first(limit), History.since(baseline, done), NOW)
        .controllingLimit()
        .due();
  }

  private static Reading hours(int hours) {
    return new Reading(null, Usage.ofHours("" + hours));
  }

  private static Reading day(int after) {
    return Reading.on(LocalDate.of(2020, 1, 31).plusDays(after));
  }

  /** Under keep-schedule and windows every due point is one of the anchor's scheduled points. */
  @Property
  void lateWorkStaysOnTheSchedule(
      @ForAll @IntRange(min = 1, max = 36) int months,
      @ForAll @IntRange(min = 1, max = 9_000) int late,
      @ForAll boolean monthEnd) {
    Limit.Every plain = Limit.Every.of(Interval.ofMonths(months)).keepSchedule();
    Limit.Every limit = monthEnd ? plain.toMonthEnd() : plain;
    long anchor = LocalDate.of(2020, 1, 31).toEpochDay();
    long done = limit.scheduled(anchor, 1) + late;
    long due = due(limit, Reading.on(LocalDate.ofEpochDay(done)));
    assertThat(due).isGreaterThan(done);
    int k = 1;
    while (limit.scheduled(anchor, k) <= done) {
      k++;
    }
    assertThat(due).isEqualTo(limit.scheduled(anchor, k));
  }

  @Property
  void hoursDivideAsSteppingWould(
      @ForAll @IntRange(min = 1, max = 500) int every,
      @ForAll @IntRange(min = 1, max = 20_000) int late) {
    Limit.Every limit = Limit.Every.of(Counter.HOURS, every + ".37").keepSchedule();
    long step = Hours.parse(every + ".37").seconds();
    long done = step + late;
    long next = step;
    while (next <= done) {
      next += step;
    }
    Reading reading = new Reading(null, Usage.NONE.with(Counter.HOURS, done));
    assertThat(due(limit, reading)).isEqualTo(next);
  }
}
