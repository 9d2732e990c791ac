package trestle.speed;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.Fleet;
import trestle.fleet.PartKind;
import trestle.fleet.Particulars;
import trestle.fleet.Position;
import trestle.fleet.Spot;
import trestle.flights.Backlog;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.reckoning.Counter;
import trestle.server.TestDatabase;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * How long the totals of all components of one aircraft take, as at any past day: 200 components,
 * half of them in an engine, each fitted twice; ten years of flights, among those of 1,000
 * aircraft.
 */
@QuarkusTest
class ComponentsBenchmark {
  private static final int YEARS = 10;
  private static final int FLIGHTS = 3_000;
  private static final int COMPONENTS = 200;
  private static final Instant BEGAN = Instant.parse("2015-01-01T00:00:00Z");

  @Inject Operators operators;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Fitments fitments;
  @Inject Backlog backlog;
  @Inject JourneyLog log;
  @Inject ComponentLines lines;

  @Test
  void totalsOfOneAircraftAtAnyPastDay() throws SQLException {
    Viewer owner =
        Company.founded("components-" + UUID.randomUUID(), operators, members).viewer(Role.OWNER);
    UUID aircraft = fleet.register(owner, registering());
    fly(owner, aircraft);
    equip(owner, aircraft);
    crowd(owner, aircraft);
    long[] nanos = new long[200];
    long sum = 0;
    for (int i = -50; i < nanos.length; i++) {
      LocalDate day = owner.dateOf(BEGAN).plusDays(Math.floorMod(i * 37, 365 * YEARS));
      long start = System.nanoTime();
      Map<UUID, ComponentLine> all = lines.fittedTo(owner, List.of(aircraft), View.asAt(day));
      for (ComponentLine line : all.values()) {
        sum += line.sinceNew(Counter.HOURS);
      }
      if (i >= 0) {
        nanos[i] = System.nanoTime() - start;
      }
    }
    Arrays.sort(nanos);
    System.out.printf(
        "Totals of %d components of one aircraft at a past day: median %.1f ms, 95 of 100 within"
            + " %.1f ms (sum %d)%n",
        COMPONENTS, nanos[100] / 1e6, nanos[190] / 1e6, sum);
  }

  private static Fleet.Registering registering() {
    List<Position> positions = new ArrayList<>(Position.single());
    for (int i = 0; i < COMPONENTS / 2; i++) {
      positions.add(new Position("bay-" + i, PartKind.OTHER, "Bay " + i, false));
    }
    return new Fleet.Registering(
        Particulars.of("QX-BIG", "Skerry 200", "S-1"),
        positions,
        BEGAN,
        Map.of(Counter.HOURS, 0L, Counter.LANDINGS, 0L),
        null);
  }

  private void fly(Viewer owner, UUID aircraft) {
    Duration apart = Duration.ofDays(365L * YEARS).dividedBy(FLIGHTS);
    List<Backlog.Sheet> sheets = new ArrayList<>();
    for (int i = 0; i < FLIGHTS; i++) {
      Instant off = BEGAN.plus(apart.multipliedBy(i)).plus(Duration.ofHours(1));
      Instant on = off.plus(Duration.ofMinutes(60));
      FlightDraft flight = FlightDraft.of("PM", "PM", off, on, 1, "A. Pilot");
      sheets.add(new Backlog.Sheet(owner, on, aircraft, List.of(flight)));
      if (sheets.size() == 200) {
        backlog.file(owner, sheets);
        sheets.clear();
      }
    }
    log.rebuild(owner, List.of(aircraft));
  }

  private void equip(Viewer owner, UUID aircraft) {
    Instant later = BEGAN.plus(Duration.ofDays(365L * YEARS / 2));
    UUID engine = registered(owner, PartKind.ENGINE, "E");
    fitTwice(owner, engine, Spot.on(aircraft, "engine"), later);
    for (int i = 0; i < COMPONENTS - 1; i++) {
      Spot spot =
          i < COMPONENTS / 2 ? Spot.on(aircraft, "bay-" + i) : Spot.in(engine, "place " + i);
      fitTwice(owner, registered(owner, PartKind.OTHER, "C" + i), spot, later);
    }
  }

  private UUID registered(Viewer owner, PartKind kind, String serial) {
    return components.register(
        owner,
        new Components.Registering(
            kind,
            "PN",
            serial,
            "Part",
            "",
            BEGAN,
            Map.of(Counter.HOURS, new Components.Run(0L, 0L)),
            null,
            null,
            null));
  }

  private void fitTwice(Viewer owner, UUID part, Spot spot, Instant later) {
    UUID first = fitments.fit(owner, new Fitments.Fit(part, spot, BEGAN, null));
    fitments.remove(owner, new Fitments.Remove(first, later, "", true, null));
    fitments.fit(owner, new Fitments.Fit(part, spot, later.plusSeconds(86_400), null));
  }

  /** 999 other aircraft with as many flights as this, straight into the derived table. */
  private static void crowd(Viewer owner, UUID like) throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement()) {
      statement.execute(
          """
          create temp table others as select gen_random_uuid() as id from generate_series(1, 999);
          insert into aircraft (operator_id, id) select '%1$s', id from others;
          insert into usage_step (operator_id, entry_id, aircraft_id, day, landed_at, hours,
              flight_hours, landings, cycles, others)
            select operator_id, gen_random_uuid(), o.id, day, landed_at, hours, flight_hours,
              landings, cycles, s.others
            from usage_step s, others o where s.aircraft_id = '%2$s';
          analyze;
          """
              .formatted(owner.operatorId(), like));
    }
  }
}
