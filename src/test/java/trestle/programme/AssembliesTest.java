package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static trestle.fleet.Hangar.hours;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.ComponentCorrections;
import trestle.fleet.ComponentEventKind;
import trestle.fleet.ComponentEvents;
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentState;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.Fitting;
import trestle.fleet.Hangar;
import trestle.fleet.PartClass;
import trestle.fleet.PartKind;
import trestle.fleet.PartSheet;
import trestle.fleet.Parts;
import trestle.fleet.Placement;
import trestle.fleet.Spots;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.server.TestDatabase;
import trestle.standing.DueItem;
import trestle.standing.Standings;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** Parts travel with the engine that they sit in, and their lives with them. */
@QuarkusTest
class AssembliesTest {
  private static final Instant BEGAN = Instant.parse("2025-01-01T00:00:00Z");
  private static Company company;
  private static int marks;

  @Inject Upkeep upkeep;
  @Inject Hangar hangar;
  @Inject Components components;
  @Inject Fitments fitments;
  @Inject ComponentEvents events;
  @Inject ComponentCorrections corrections;
  @Inject ComponentLines lines;
  @Inject Parts parts;
  @Inject Spots spots;
  @Inject JourneyLog log;
  @Inject DueItems dueItems;
  @Inject Standings standings;
  @Inject Requirements requirements;

  private Viewer owner;
  private String mark;
  private UUID one;
  private UUID other;
  private UUID engine;
  private UUID otherEngine;
  private UUID magneto;
  private UUID otherMagneto;

  @BeforeEach
  void found() {
    if (company == null) {
      company = upkeep.company();
    }
    owner = company.viewer(Role.OWNER);
    mark = "A" + marks++;
    one = hangar.single(owner, "QX-" + mark + "A", BEGAN);
    other = hangar.single(owner, "QX-" + mark + "B", BEGAN);
    engine = hangar.engine(owner, mark + "-1", BEGAN, hours(500), hours(500));
    otherEngine = hangar.engine(owner, mark + "-2", BEGAN, hours(700), hours(700));
    hangar.fit(owner, engine, one, "engine", BEGAN);
    hangar.fit(owner, otherEngine, other, "engine", BEGAN);
    magneto = hangar.magneto(owner, "SM-4", mark + "-M1", BEGAN);
    otherMagneto = hangar.magneto(owner, "SM-4", mark + "-M2", BEGAN);
  }

  @Test
  void aMagnetoRunsWithTheEngineThatItSitsIn() {
    hangar.put(owner, magneto, engine, "left magneto", BEGAN);
    fly(one, "01T09:00", "01T11:00");
    UUID fitted = components.history(owner, engine, View.EVERYTHING).placed().fitmentId();
    hangar.remove(owner, fitted, at("02T00:00"));
    fly(one, "03T09:00", "03T10:00");
    Placement placed = components.history(owner, magneto, View.EVERYTHING).placed();
    assertThat(placed.assemblyId()).isEqualTo(engine);
    assertThat(components.history(owner, magneto, View.EVERYTHING).fitted()).isNull();
    UUID away = components.history(owner, otherEngine, View.EVERYTHING).placed().fitmentId();
    hangar.remove(owner, away, at("03T12:00"));
    hangar.fit(owner, engine, other, "engine", at("04T00:00"));
    fly(other, "05T09:00", "05T10:30");

    ComponentLine line = lines.of(owner, magneto, View.EVERYTHING);
    assertThat(line.sinceNew(Counter.HOURS)).isEqualTo(hours(3.5));
    assertThat(line.sinceFitted(Counter.HOURS)).isEqualTo(hours(3.5));
    assertThat(line.history().fittings().stream().map(Fitting::aircraftId))
        .containsExactly(one, other);
    assertThat(line.history().fitted().positionLabel()).isEqualTo("Engine, left magneto");
    assertThat(
            lines.of(owner, magneto, View.asAt(LocalDate.of(2025, 3, 4))).sinceNew(Counter.HOURS))
        .isEqualTo(hours(2));
    // One found late, flown while the engine was still on the first.
    fly(one, "01T14:00", "01T14:30");
    assertThat(lines.of(owner, magneto, View.EVERYTHING).sinceNew(Counter.HOURS))
        .isEqualTo(hours(4));
  }

  @Test
  void aSwapMovesDueItemsAndStandingAtOneMoment() {
    hangar.put(owner, magneto, engine, "left magneto", BEGAN);
    hangar.put(owner, otherMagneto, otherEngine, "left magneto", BEGAN);
    UUID limit = limitedTo(magneto, "3");
    fly(one, "01T09:00", "01T11:00");
    assertThat(item(one, limit).controlling().remaining()).isEqualTo(hours(1));
    assertThat(items(other, limit)).isEmpty();

    fitments.swap(
        owner,
        new Fitments.Swap(magneto, otherMagneto, at("02T12:00"), "Rough running", false, null));
    fly(one, "03T09:00", "03T12:00");
    fly(other, "03T09:00", "03T10:00");
    assertThat(items(one, limit)).isEmpty();
    assertThat(item(other, limit).controlling().remaining()).isZero();
    assertThat(reasons(other)).anyMatch(words -> words.contains("life limit reached"));
    assertThat(reasons(one)).noneMatch(words -> words.contains("life limit reached"));
    assertThat(components.history(owner, otherMagneto, View.EVERYTHING).fitted().aircraftId())
        .isEqualTo(one);
    assertThat(items(one, limit, LocalDate.of(2025, 3, 1))).hasSize(1);
  }

  @Test
  void whatIsFittedElsewhereTakenOrCircularIsRefusedInWords() {
    hangar.put(owner, magneto, engine, "left magneto", BEGAN);
    refused(
        () -> hangar.put(owner, magneto, otherEngine, "left magneto", at("02T00:00")),
        "It is fitted to Engine Tarn 360, part TARN-360, serial " + mark + "-1 (left magneto)");
    refused(
        () -> hangar.put(owner, otherMagneto, engine, "Left magneto", at("02T00:00")),
        "Left magneto is taken then or later by Magneto, serial " + mark + "-M1");
    UUID points = hangar.magneto(owner, "SM-P", mark + "-P", BEGAN);
    hangar.put(owner, points, otherMagneto, "points", BEGAN);
    refused(
        () -> hangar.put(owner, otherMagneto, points, "inside", at("02T00:00")),
        "That would go round in a circle");
    refused(
        () -> hangar.put(owner, otherMagneto, otherMagneto, "inside", at("02T00:00")),
        "can’t sit in itself");
    refused(
        () -> hangar.put(owner, otherEngine, engine, "spare", at("02T00:00")), "It is fitted to");
    refused(
        () -> hangar.put(owner, otherMagneto, engine, "right magneto", at("02T00:00", 2024)),
        "Fitted must not be before it was new");
    refused(
        () ->
            events.overhaul(
                owner, new ComponentEvents.Overhaul(otherMagneto, at("02T00:00", 2024), "C", null)),
        "Overhauled must not be before it was new");
  }

  @Test
  void aPartThatFitsOneSideOnlyIsRefusedElsewhereWithTheReason() {
    parts.state(
        owner,
        new Parts.Stating(
            new PartSheet(
                null,
                null,
                mark + "-L",
                "Magneto, left",
                PartKind.OTHER,
                PartClass.COMPONENT,
                List.of("TARN-360"),
                List.of("left magneto"),
                "turns left",
                true,
                ""),
            null,
            null));
    UUID left = hangar.magneto(owner, mark + "-L", "1", BEGAN);
    refused(
        () -> hangar.put(owner, left, engine, "right magneto", BEGAN),
        "Part " + mark + "-L fits left magneto of TARN-360 only (turns left), not right magneto");
    List<String> offered =
        spots.offered(owner, components.history(owner, left, View.EVERYTHING).sheet()).stream()
            .map(Option::value)
            .toList();
    assertThat(offered).contains("in/" + engine).allMatch(place -> place.startsWith("in/"));
    hangar.put(owner, left, engine, "left magneto", BEGAN);

    parts.state(
        owner,
        new Parts.Stating(
            new PartSheet(
                null,
                null,
                mark + "-C",
                "Coupling",
                PartKind.OTHER,
                PartClass.COMPONENT,
                List.of(mark + "-L"),
                List.of(),
                "",
                false,
                ""),
            null,
            null));
    UUID coupling = hangar.magneto(owner, mark + "-C", "1", BEGAN);
    assertThat(spots.offered(owner, components.history(owner, coupling, View.EVERYTHING).sheet()))
        .as("a part that sits in a part")
        .extracting(Option::value)
        .containsExactly("in/" + left);
  }

  @Test
  void theStateIsToldFromWhatHappened() {
    assertThat(state(magneto)).isEqualTo(ComponentState.IN_STORE);
    UUID put = hangar.put(owner, magneto, engine, "left magneto", at("01T00:00"));
    assertThat(state(magneto)).isEqualTo(ComponentState.FITTED);
    refused(() -> happened(ComponentEventKind.SENT_OUT, "02"), "remove it first");
    hangar.remove(owner, put, at("02T00:00"));
    refused(() -> happened(ComponentEventKind.RETURNED, "03"), "It was not sent out");
    happened(ComponentEventKind.UNSERVICEABLE, "03");
    assertThat(state(magneto)).isEqualTo(ComponentState.UNSERVICEABLE);
    refused(() -> hangar.put(owner, magneto, engine, "left", at("04T00:00")), "unserviceable");
    happened(ComponentEventKind.SENT_OUT, "05");
    happened(ComponentEventKind.REPAIRED, "06");
    assertThat(state(magneto)).isEqualTo(ComponentState.AWAY);
    happened(ComponentEventKind.RETURNED, "07");
    assertThat(state(magneto)).isEqualTo(ComponentState.IN_STORE);
    happened(ComponentEventKind.RETIRED, "08");
    refused(() -> hangar.put(owner, magneto, engine, "left", at("09T00:00")), "retired");
    refused(() -> happened(ComponentEventKind.REBUILT, "09"), "Only an engine is rebuilt");
  }

  @Test
  void aRebuildBeginsTimeSinceNewAgainAndPartsInsideKeepTheirLives() {
    hangar.put(owner, magneto, engine, "left magneto", BEGAN);
    fly(one, "01T09:00", "01T11:00");
    events.file(
        owner,
        new ComponentEvents.Happening(
            engine,
            ComponentEventKind.REBUILT,
            at("02T00:00"),
            "Tarn Works",
            "",
            "Statement 7",
            true,
            null));
    fly(one, "03T09:00", "03T10:00");
    ComponentLine line = lines.of(owner, engine, View.EVERYTHING);
    assertThat(line.sinceNew(Counter.HOURS)).isEqualTo(hours(1));
    assertThat(line.sinceOverhaul(Counter.HOURS)).isEqualTo(hours(1));
    assertThat(line.unitsAt(Instant.MAX, Counter.HOURS)).isEqualTo(hours(503));
    assertThat(line.origins().get("new").usage().units(Counter.HOURS)).isEqualTo(hours(502));
    assertThat(lines.of(owner, magneto, View.EVERYTHING).sinceNew(Counter.HOURS))
        .isEqualTo(hours(3));
  }

  @Test
  void itsOwnMeterCountsAndIsEstimatedBetweenReadings() {
    hangar.put(owner, magneto, engine, "heater", BEGAN);
    metered("01T00:00", 10);
    fly(one, "01T09:00", "01T13:00");
    metered("02T00:00", 11);
    ComponentLine read = lines.of(owner, magneto, View.EVERYTHING);
    assertThat(read.sinceNew(Counter.HOURS)).isEqualTo(hours(1));
    assertThat(read.isEstimated(Counter.HOURS)).isFalse();
    fly(one, "03T09:00", "03T11:00");
    ComponentLine estimated = lines.of(owner, magneto, View.EVERYTHING);
    assertThat(estimated.sinceNew(Counter.HOURS)).isEqualTo(hours(1.5));
    assertThat(estimated.isEstimated(Counter.HOURS)).isTrue();
    refused(() -> metered("04T00:00", 10.5), "a meter does not run backwards");

    // Two hours on the meter since the first reading, and a new one that shows five.
    metered("05T00:00", 12, 5.0);
    metered("06T00:00", 5.5);
    ComponentLine replaced = lines.of(owner, magneto, View.EVERYTHING);
    assertThat(replaced.sinceNew(Counter.HOURS)).isEqualTo(hours(2.5));
    refused(() -> metered("07T00:00", 5.4), "it was 5.5 on");
    refused(() -> metered("04T00:00", 12.1), "it was 12 on");
    fly(one, "08T09:00", "08T10:00");
    assertThat(replaced.unitsAt(at("05T00:00"), Counter.HOURS)).isEqualTo(hours(2));
    metered("09T00:00", 6.5);
    assertThat(lines.of(owner, magneto, View.EVERYTHING).sinceNew(Counter.HOURS))
        .isEqualTo(hours(3.5));
  }

  /** What ran before somebody first read the meter has run all the same. */
  @Test
  void theFirstReadingOfAMeterTakesNothingAway() {
    hangar.put(owner, magneto, engine, "heater", BEGAN);
    fly(one, "01T09:00", "01T13:00");
    assertThat(lines.of(owner, magneto, View.EVERYTHING).sinceNew(Counter.HOURS))
        .isEqualTo(hours(4));
    UUID first = metered("02T00:00", 100);
    ComponentLine once = lines.of(owner, magneto, View.EVERYTHING);
    assertThat(once.sinceNew(Counter.HOURS)).isEqualTo(hours(4));
    assertThat(once.isEstimated(Counter.HOURS)).isTrue();
    fly(one, "03T09:00", "03T11:00");
    assertThat(lines.of(owner, magneto, View.EVERYTHING).sinceNew(Counter.HOURS))
        .as("one reading says nothing of how much ran")
        .isEqualTo(hours(6));
    metered("04T00:00", 101);
    ComponentLine twice = lines.of(owner, magneto, View.EVERYTHING);
    assertThat(twice.sinceNew(Counter.HOURS)).isEqualTo(hours(5));
    assertThat(twice.unitsAt(at("01T13:00"), Counter.HOURS)).isEqualTo(hours(4));

    metered("05T00:00", 103, 0.0);
    metered("06T00:00", 30);
    UUID replaced = readings().get(2).id();
    refused(
        () -> corrections.correctMeterReading(owner, correcting(replaced, "05T00:00", true)),
        "would run backwards");
    refused(
        () -> corrections.correctMeterReading(owner, correcting(first, "04T12:00", false)),
        "would run backwards");
    corrections.correctMeterReading(owner, correcting(first, "01T00:00", false));
    assertThat(readings()).hasSize(4);
  }

  private List<ComponentHistory.MeterReading> readings() {
    return components.history(owner, magneto, View.EVERYTHING).meterReadings();
  }

  private static Fitments.Correcting correcting(UUID row, String when, boolean voids) {
    return new Fitments.Correcting(row, at(when), voids, "Read again", null);
  }

  /** What code would have to forget to refuse: written straight into the table. */
  @Test
  void theDatabaseItselfRefusesTwoPlacesAtOnceAndCircles() {
    UUID put = hangar.put(owner, magneto, engine, "left magneto", BEGAN);
    refusedByDatabase(put, "assembly_id = '" + otherEngine + "'", "at one place at a time");
    refusedByDatabase(
        put, "component_id = '" + otherMagneto + "'", "holds one component at a time");
    refusedByDatabase(
        put,
        "component_id = '" + engine + "', assembly_id = '" + magneto + "'",
        "at one place at a time");
    UUID points = hangar.magneto(owner, "SM-P", mark + "-P", BEGAN);
    hangar.put(owner, points, otherMagneto, "points", BEGAN);
    refusedByDatabase(
        put,
        "component_id = '" + otherMagneto + "', assembly_id = '" + points + "'",
        "closes a circle");
  }

  private static void refusedByDatabase(UUID like, String changed, String words) {
    assertThatThrownBy(
            () -> {
              try (var connection = TestDatabase.asSuperuser();
                  var statement = connection.createStatement()) {
                connection.setAutoCommit(false);
                statement.execute("set constraints keep_places_apart immediate");
                statement.execute(
                    "create temp table one on commit drop as select * from fitment where id = '"
                        + like
                        + "'");
                statement.execute(
                    "update one set id = gen_random_uuid(), ledger_seq = 1000000, " + changed);
                statement.execute("insert into fitment select * from one");
              }
            })
        .isInstanceOf(SQLException.class)
        .hasMessageContaining(words);
  }

  private UUID metered(String when, double hours) {
    return metered(when, hours, null);
  }

  private UUID metered(String when, double hours, Double replacedBy) {
    return events.read(
        owner,
        new ComponentEvents.Metered(
            magneto,
            Counter.HOURS,
            hours(hours),
            replacedBy == null ? null : hours(replacedBy),
            at(when),
            null));
  }

  private void happened(ComponentEventKind kind, String day) {
    events.file(
        owner,
        new ComponentEvents.Happening(
            magneto, kind, at(day + "T12:00"), "Tarn Works", "Checked", "C-1", false, null));
  }

  private ComponentState state(UUID component) {
    return components.history(owner, component, View.EVERYTHING).state();
  }

  private UUID limitedTo(UUID component, String hours) {
    Terms terms =
        Terms.of(
            "Magneto life",
            RequirementKind.LIFE_LIMIT,
            Rule.first(Limit.Fixed.at(Counter.HOURS, hours)).onlyOnce(),
            owner.dateOf(BEGAN));
    return requirements.create(
        owner, NewRequirement.ofComponent(component, terms, owner.dateOf(BEGAN), "The maker"));
  }

  private DueItem item(UUID aircraft, UUID requirement) {
    return items(aircraft, requirement).get(0);
  }

  private List<DueItem> items(UUID aircraft, UUID requirement) {
    return items(aircraft, requirement, LocalDate.of(2025, 3, 28));
  }

  private List<DueItem> items(UUID aircraft, UUID requirement, LocalDate day) {
    return dueItems.dueItems(owner, List.of(aircraft), View.asAt(day)).get(aircraft).stream()
        .filter(item -> item.requirementId().equals(requirement))
        .toList();
  }

  private List<String> reasons(UUID aircraft) {
    return standings
        .now(owner, List.of(aircraft), LocalDate.of(2025, 3, 28))
        .get(aircraft)
        .standing()
        .reasons()
        .stream()
        .map(trestle.standing.Reason::sentence)
        .toList();
  }

  private void fly(UUID aircraft, String takeOff, String landing) {
    log.file(
        owner, aircraft, FlightDraft.of("PM", "PM", at(takeOff), at(landing), 1, "A. Pilot"), null);
  }

  private static void refused(Runnable attempt, String words) {
    assertThatThrownBy(attempt::run)
        .isInstanceOf(Refusal.class)
        .satisfies(refusal -> assertThat(((Refusal) refusal).reasons().toString()).contains(words));
  }

  private static Instant at(String dayAndTime) {
    return at(dayAndTime, 2025);
  }

  private static Instant at(String dayAndTime, int year) {
    return Instant.parse(year + "-03-" + dayAndTime + ":00Z");
  }
}
