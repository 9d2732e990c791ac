package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;
import static trestle.fleet.Hangar.hours;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.TreeSet;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.Meters;
import trestle.fleet.Particulars;
import trestle.fleet.Rounding;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.reckoning.Counter;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * However flights come in, late, corrected, voided or explained, the derived rows are what a fresh
 * reckoning of all current flights gives.
 */
@QuarkusTest
class AnyOrderTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");
  private static int companies;

  @Inject JourneyLog log;
  @Inject Breaks breaks;
  @Inject UsageLines lines;
  @Inject Meters meters;
  @Inject Hangar hangar;
  @Inject Fleet fleet;
  @Inject Operators operators;
  @Inject Members members;

  private Viewer owner;

  @BeforeEach
  void found() {
    owner = Company.founded("any-order-" + companies++, operators, members).viewer(Role.OWNER);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void theSameFlightsInAnyOrderGiveTheSameTotalsAndBreaks(long seed) throws SQLException {
    Random random = new Random(seed);
    List<FlightDraft> drafts = story(random, 25);
    UUID told = aircraft("QX-TOLD", random.nextBoolean());
    UUID mixed = hangar.register(owner, particulars("QX-MIXED", told), BEGINNING);
    drafts.forEach(draft -> log.file(owner, told, draft, null));
    List<FlightDraft> shuffled = new ArrayList<>(drafts);
    Collections.shuffle(shuffled, random);
    log.fileAll(owner, mixed, shuffled.subList(0, 8));
    shuffled.subList(8, 25).forEach(draft -> log.file(owner, mixed, draft, null));
    assertThat(Derived.steps(mixed)).isEqualTo(Derived.steps(told));
    assertThat(Derived.breaks(mixed)).isEqualTo(Derived.breaks(told));
    assertThat(Derived.steps(told)).isEqualTo(Naive.steps(told));
    assertThat(Derived.breaks(told)).isEqualTo(Naive.breaks(told));
  }

  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13, 14, 15, 16})
  void randomCorrectionsLeaveWhatAFreshReckoningGives(long seed) throws SQLException {
    Random random = new Random(seed);
    UUID aircraft = aircraft("QX-RND", random.nextBoolean());
    List<UUID> current = new ArrayList<>();
    List<FlightDraft> story = story(random, 30);
    Collections.shuffle(story, random);
    for (FlightDraft draft : story) {
      act(random, aircraft, current, draft);
    }
    List<String> steps = Derived.steps(aircraft);
    List<String> broken = Derived.breaks(aircraft);
    assertThat(steps).isEqualTo(Naive.steps(aircraft));
    assertThat(broken).isEqualTo(Naive.breaks(aircraft));
    assertThat(lines.of(owner, aircraft, View.EVERYTHING).unitsAt(Instant.MAX, Counter.HOURS))
        .isEqualTo(hours(6_000) + Naive.hours(aircraft));

    log.rebuild(owner, List.of(aircraft));
    assertThat(Derived.steps(aircraft)).isEqualTo(steps);
    assertThat(Derived.breaks(aircraft)).isEqualTo(broken);
  }

  private void act(Random random, UUID aircraft, List<UUID> current, FlightDraft draft) {
    current.add(log.file(owner, aircraft, draft, null).id());
    int dice = random.nextInt(10);
    int which = random.nextInt(current.size());
    if (dice < 3) {
      FlightDraft other = story(random, 30).get(random.nextInt(30));
      current.set(which, log.correct(owner, current.get(which), other, "Mistaken", null).id());
    } else if (dice == 3) {
      current.set(which, log.voided(owner, current.get(which), "Never was", null).id());
    } else if (dice == 4) {
      explainOne(random, aircraft);
    } else if (dice == 5 && random.nextBoolean()) {
      meters.changeMeter(
          owner,
          aircraft,
          new Meters.ChangingMeter(
              draft.takeOff().minusSeconds(random.nextInt(7200)),
              random.nextBoolean() ? null : hours(random.nextInt(300)),
              hours(random.nextInt(100)),
              null,
              false,
              null,
              null));
    }
  }

  private void explainOne(Random random, UUID aircraft) {
    breaks.of(owner, aircraft, View.EVERYTHING).stream()
        .filter(line -> line.kind() == BreakKind.GAP)
        .findAny()
        .ifPresent(
            line ->
                breaks.explain(
                    owner,
                    new Breaks.Explaining(
                        line.flight().id(),
                        BreakKind.GAP,
                        line.amount(),
                        random.nextBoolean(),
                        "Engine run",
                        null)));
  }

  private UUID aircraft(String registration, boolean byMeter) {
    Particulars stated = Particulars.of(registration, "Skerry 200", "S-1").withMeter("hour meter");
    return hangar.register(
        owner, byMeter ? stated.byMeter("hour meter") : stated.rounded(Rounding.TENTHS), BEGINNING);
  }

  private Particulars particulars(String registration, UUID like) {
    Particulars stated = fleet.sheet(owner, like, View.EVERYTHING).particulars();
    return new Particulars(
        registration,
        stated.typeName(),
        "",
        stated.serial(),
        null,
        stated.hoursBasis(),
        stated.meterName(),
        stated.rounding(),
        stated.shownAs(),
        "litres",
        false);
  }

  /** Flights over two weeks at distinct times: most follow on, some leave gaps, overlap, slip. */
  private static List<FlightDraft> story(Random random, int count) {
    TreeSet<Long> minutes = new TreeSet<>();
    while (minutes.size() < count) {
      minutes.add((long) random.nextInt(14 * 24 * 60));
    }
    List<FlightDraft> drafts = new ArrayList<>();
    long meter = hours(100);
    for (long minute : minutes) {
      Instant takeOff = BEGINNING.plusSeconds(60 * (minute + 90 * 24 * 60));
      Instant landing = takeOff.plusSeconds(60 * (1 + random.nextInt(240)));
      FlightDraft draft =
          FlightDraft.of(place(random), place(random), takeOff, landing, 1, "I. Tarn");
      int dice = random.nextInt(10);
      if (dice < 7) {
        long out = dice == 0 ? meter + 360L * random.nextInt(10) : meter;
        meter = out + 360L * (1 + random.nextInt(30));
        drafts.add(dice == 1 ? draft.metered(out / 10, meter / 10) : draft.metered(out, meter));
      } else if (dice == 7) {
        drafts.add(draft.metered(meter, meter - 360));
      } else {
        drafts.add(draft);
      }
    }
    return drafts;
  }

  private static String place(Random random) {
    return random.nextInt(4) == 0 ? "Skell Island" : "Port Maddern";
  }
}
