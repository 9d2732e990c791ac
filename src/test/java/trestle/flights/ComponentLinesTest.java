package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static trestle.fleet.Hangar.hours;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.ComponentCorrections;
import trestle.fleet.ComponentEvents;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.Position;
import trestle.flights.ComponentLine.Axis;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** What components run while they are fitted, and what is refused about fitting them. */
@QuarkusTest
class ComponentLinesTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");
  private static int companies;

  @Inject JourneyLog log;
  @Inject ComponentLines lines;
  @Inject Components components;
  @Inject Fitments fitments;
  @Inject ComponentEvents events;
  @Inject ComponentCorrections corrections;
  @Inject Fleet fleet;
  @Inject Hangar hangar;
  @Inject Operators operators;
  @Inject Members members;

  private Viewer engineer;
  private UUID one;
  private UUID other;

  @BeforeEach
  void found() {
    engineer =
        Company.founded("components-" + companies++, operators, members).viewer(Role.ENGINEER);
    one = hangar.single(engineer, "QX-ONE", BEGINNING);
    other = hangar.single(engineer, "QX-TWO", BEGINNING);
  }

  @Test
  void aComponentGathersWhatItsAircraftFliesWhileItIsFitted() {
    UUID engine = hangar.engine(engineer, "E-1", BEGINNING, hours(1_000), hours(300));
    fly(one, "01T09:00", "01T10:00");
    UUID fitment = hangar.fit(engineer, engine, one, "engine", day("02T00:00"));
    fly(one, "03T09:00", "03T11:00");
    hangar.remove(engineer, fitment, day("04T00:00"));
    fly(one, "05T09:00", "05T10:00");
    hangar.fit(engineer, engine, other, "engine", day("06T00:00"));
    fly(other, "07T09:00", "07T09:30");
    ComponentLine line = line(engine);
    assertThat(line.sinceNew(Counter.HOURS)).isEqualTo(hours(1_002.5));
    assertThat(line.sinceOverhaul(Counter.HOURS)).isEqualTo(hours(302.5));
    assertThat(line.sinceFitted(Counter.HOURS)).isEqualTo(hours(0.5));
    assertThat(line.unitsAt(day("05T12:00"), Counter.HOURS)).isEqualTo(hours(1_002));
  }

  @Test
  void aLateFlightBeforeOrAfterAFitmentMovesTheRightEngine() {
    UUID first = hangar.engine(engineer, "E-1", BEGINNING, 0L, 0L);
    UUID second = hangar.engine(engineer, "E-2", BEGINNING, 0L, 0L);
    UUID fitment = hangar.fit(engineer, first, one, "engine", BEGINNING);
    hangar.remove(engineer, fitment, day("10T12:00"));
    hangar.fit(engineer, second, one, "engine", day("10T12:00"));
    fly(one, "10T08:00", "10T12:00");
    fly(one, "10T13:00", "10T14:00");
    assertThat(line(first).sinceNew(Counter.HOURS)).isEqualTo(hours(4));
    assertThat(line(second).sinceNew(Counter.HOURS)).isEqualTo(hours(1));
  }

  @Test
  void anOverhaulRestartsTimeSinceOverhaulOnly() {
    UUID engine = hangar.engine(engineer, "E-1", BEGINNING, hours(1_900), hours(1_900));
    UUID fitment = hangar.fit(engineer, engine, one, "engine", BEGINNING);
    fly(one, "01T09:00", "01T10:00");
    hangar.remove(engineer, fitment, day("02T00:00"));
    events.overhaul(
        engineer, new ComponentEvents.Overhaul(engine, day("03T00:00"), "Certificate 77", null));
    hangar.fit(engineer, engine, one, "engine", day("04T00:00"));
    fly(one, "05T09:00", "05T10:30");
    ComponentLine line = line(engine);
    assertThat(line.sinceNew(Counter.HOURS)).isEqualTo(hours(1_902.5));
    assertThat(line.sinceOverhaul(Counter.HOURS)).isEqualTo(hours(1.5));
    assertThat(line.origins().get("overhaul").toString()).isEqualTo("2025-03-02 hours=1901");
    assertThat(line.origins().get("fitted").toString()).isEqualTo("2025-03-03 hours=1901");
  }

  @Test
  void timeSinceNewStaysUnknownWhileTimeSinceOverhaulIsReckoned() {
    UUID engine = hangar.engine(engineer, "E-1", BEGINNING, null, hours(300));
    hangar.fit(engineer, engine, one, "engine", BEGINNING);
    fly(one, "01T09:00", "01T10:00");
    ComponentLine line = line(engine);
    assertThat(line.sinceNew(Counter.HOURS)).isEqualTo(Scale.UNKNOWN);
    assertThat(line.sinceOverhaul(Counter.HOURS)).isEqualTo(hours(301));
    assertThat(line.axis(Counter.HOURS)).contains(Axis.OVERHAUL);
    assertThat(line.origins().get("overhaul").usage().units(Counter.HOURS)).isZero();
    assertThat(line.origins()).doesNotContainKey("new");
  }

  @Test
  void withNothingKnownItStillRunsOnSinceTheRecordsBegan() {
    UUID engine = hangar.engine(engineer, "E-1", BEGINNING, null, null);
    hangar.fit(engineer, engine, one, "engine", BEGINNING);
    fly(one, "01T09:00", "01T10:00");
    ComponentLine line = line(engine);
    assertThat(line.axis(Counter.HOURS)).contains(Axis.RECORDS);
    assertThat(line.unitsAt(Instant.MAX, Counter.HOURS)).isEqualTo(hours(1));
    assertThat(line.sinceNew(Counter.HOURS)).isEqualTo(Scale.UNKNOWN);
    assertThat(line.sinceOverhaul(Counter.HOURS)).isEqualTo(Scale.UNKNOWN);
  }

  @Test
  void whatItRanIsAsAtTheViewsDay() {
    UUID engine = hangar.engine(engineer, "E-1", BEGINNING, 0L, 0L);
    hangar.fit(engineer, engine, one, "engine", day("02T00:00"));
    fly(one, "03T09:00", "03T10:00");
    fly(one, "05T09:00", "05T10:00");
    View then = View.asAt(LocalDate.of(2025, 3, 4));
    assertThat(lines.of(engineer, engine, then).sinceNew(Counter.HOURS)).isEqualTo(hours(1));
    View before = View.asAt(LocalDate.of(2025, 3, 1).minusDays(1));
    assertThat(lines.of(engineer, engine, before).history().fitted()).isNull();
  }

  @Test
  void whatIsFittedElsewhereOrTakenOrOfAnotherKindIsRefused() {
    UUID engine = hangar.engine(engineer, "E-1", BEGINNING, 0L, 0L);
    UUID spare = hangar.engine(engineer, "E-2", BEGINNING, 0L, 0L);
    UUID fitment = hangar.fit(engineer, engine, one, "engine", day("02T00:00"));
    refused("place", () -> hangar.fit(engineer, engine, other, "engine", day("03T00:00")));
    refused("place", () -> hangar.fit(engineer, spare, one, "engine", day("03T00:00")));
    refused("place", () -> hangar.fit(engineer, spare, one, "engine", day("01T00:00")));
    refused("place", () -> hangar.fit(engineer, spare, other, "propeller", day("03T00:00")));
    refused("place", () -> hangar.fit(engineer, spare, other, "tail", day("03T00:00")));
    refused("on", () -> hangar.remove(engineer, fitment, day("01T00:00")));
    refused(
        "on",
        () -> hangar.fit(engineer, spare, other, "engine", Instant.parse("2999-01-01T00:00:00Z")));
  }

  @Test
  void aCorrectedFitmentMovesWhatItGathered() {
    UUID engine = hangar.engine(engineer, "E-1", BEGINNING, 0L, 0L);
    UUID fitment = hangar.fit(engineer, engine, one, "engine", day("04T00:00"));
    fly(one, "03T09:00", "03T10:00");
    assertThat(line(engine).sinceNew(Counter.HOURS)).isZero();
    corrections.correctFitment(
        engineer, new Fitments.Correcting(fitment, day("02T00:00"), false, "Wrong day", null));
    assertThat(line(engine).sinceNew(Counter.HOURS)).isEqualTo(hours(1));
    UUID now = line(engine).history().fitted().fitmentId();
    UUID removal = hangar.remove(engineer, now, day("03T00:00"));
    assertThat(line(engine).sinceNew(Counter.HOURS)).isZero();
    corrections.correctRemoval(
        engineer, new Fitments.Correcting(removal, day("03T00:00"), true, "It stayed", null));
    assertThat(line(engine).sinceNew(Counter.HOURS)).isEqualTo(hours(1));
  }

  @Test
  void aRequiredPositionIsEmptyUntilSomethingIsFitted() {
    UUID engine = hangar.engine(engineer, "E-1", BEGINNING, 0L, 0L);
    assertThat(emptyPositions()).containsExactly("engine", "propeller");
    hangar.fit(engineer, engine, one, "engine", day("02T00:00"));
    assertThat(emptyPositions()).containsExactly("propeller");
  }

  private List<String> emptyPositions() {
    return fleet
        .emptyRequiredPositions(engineer, List.of(one), View.EVERYTHING)
        .getOrDefault(one, List.of())
        .stream()
        .map(Position::code)
        .toList();
  }

  private ComponentLine line(UUID component) {
    return lines.of(engineer, component, View.EVERYTHING);
  }

  private void fly(UUID aircraft, String takeOff, String landing) {
    log.file(
        engineer,
        aircraft,
        FlightDraft.of("Port Maddern", "Port Maddern", day(takeOff), day(landing), 1, "I. Tarn"),
        null);
  }

  private static void refused(String field, Runnable attempt) {
    assertThatThrownBy(attempt::run)
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal -> assertThat(refusal.reasons().get(0).field()).isEqualTo(field));
  }

  private static Instant day(String dayAndTime) {
    return Instant.parse("2025-03-" + dayAndTime + ":00Z");
  }
}
