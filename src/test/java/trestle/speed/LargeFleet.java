package trestle.speed;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Particulars;
import trestle.flights.Backlog;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.programme.NewRequirement;
import trestle.programme.Programmes;
import trestle.programme.RequirementKind;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.server.TestDatabase;
import trestle.standing.Subject;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * An operator of the size a benchmark asks for: one programme that all its aircraft follow, flights
 * on each, and each requirement done three times on each aircraft. Made through the ordinary use
 * cases, but for the compliances: those are written by the ten thousand as rows with their lines in
 * the ledger, without the ledger's hashes.
 */
@ApplicationScoped
class LargeFleet {
  private static final int DAYS = 500;
  private static final int SHEETS_A_FILING = 200;

  @Inject Operators operators;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject Programmes programmes;
  @Inject Requirements requirements;
  @Inject Backlog backlog;
  @Inject JourneyLog journeyLog;
  @Inject InstantSource clock;

  record Made(Company company, List<UUID> aircraft) {}

  Made make(String name, int aircraft, int requirementsEach, int flightsEach) throws SQLException {
    Company company = Company.founded(name, operators, members);
    Viewer owner = company.viewer(Role.OWNER);
    Instant began = clock.instant().minus(Duration.ofDays(DAYS));
    LocalDate from = owner.dateOf(began);
    UUID programme =
        programmes.create(
            owner, new Programmes.NewProgramme(name, "Skerry 200", "Invented", from, null));
    for (int i = 0; i < requirementsEach; i++) {
      Terms terms = Terms.of("Inspection " + (i + 1), RequirementKind.INSPECTION, rule(i), from);
      requirements.create(
          owner, NewRequirement.ofProgramme(programme, Subject.AIRCRAFT, terms, from, "Nobody"));
    }
    List<UUID> ids = new ArrayList<>();
    for (int i = 0; i < aircraft; i++) {
      UUID id = fleet.register(owner, registering(i, began));
      programmes.adopt(owner, id, programme, from, null, null);
      ids.add(id);
    }
    fly(owner, ids, began, flightsEach);
    try (Connection connection = TestDatabase.asSuperuser()) {
      comply(connection, company.operatorId());
    }
    return new Made(company, ids);
  }

  /** Two limits, none of which is near: a page of reasons would measure something else. */
  private static Rule rule(int i) {
    return Rule.first(
        Limit.Every.of(Counter.HOURS, Integer.toString(1_000 + 7 * i)).soon("10"),
        Limit.Every.of(Interval.parse("P" + (18 + i % 30) + "M")).soon("P30D"));
  }

  private static Fleet.Registering registering(int i, Instant began) {
    return new Fleet.Registering(
        Particulars.of("QX-%03X".formatted(i), "Skerry 200", "S-" + i),
        List.of(),
        began,
        Map.of(Counter.HOURS, 6_000 * 3600L, Counter.LANDINGS, 9_000L),
        null);
  }

  private void fly(Viewer owner, List<UUID> aircraft, Instant began, int flightsEach) {
    List<Backlog.Sheet> sheets = new ArrayList<>();
    Duration apart = Duration.ofDays(DAYS - 2).dividedBy(Math.max(1, flightsEach));
    for (int n = 0; n < flightsEach; n++) {
      Instant takeOff = began.plus(apart.multipliedBy(n)).plus(Duration.ofHours(1));
      Instant landing = takeOff.plus(Duration.ofMinutes(72));
      for (UUID each : aircraft) {
        FlightDraft draft =
            FlightDraft.of("Port Maddern", "Sound", takeOff, landing, 1, "A. Pilot");
        sheets.add(new Backlog.Sheet(owner, landing, each, List.of(draft)));
        if (sheets.size() == SHEETS_A_FILING) {
          backlog.file(owner, sheets);
          sheets.clear();
        }
      }
    }
    if (!sheets.isEmpty()) {
      backlog.file(owner, sheets);
    }
    journeyLog.rebuild(owner, aircraft);
  }

  /** One more flight, as of now. */
  void fly(Made made, int turn) {
    UUID aircraft = made.aircraft().get(turn % made.aircraft().size());
    Instant landing = clock.instant().minusSeconds(60);
    Viewer pilot = made.company().viewer(Role.PILOT);
    FlightDraft draft =
        FlightDraft.of("Sound", "Port Maddern", landing.minusSeconds(30), landing, 1, "A. Pilot");
    journeyLog.file(pilot, aircraft, draft, null);
  }

  private static void comply(Connection connection, UUID operator) throws SQLException {
    try (var statement = connection.createStatement()) {
      statement.execute(
          """
          create temp table done as
            select gen_random_uuid() as id, a.id as aircraft_id, r.id as requirement_id,
              now() - interval '160 days' * n + interval '1 hour' as at,
              h.size + row_number() over (order by n desc, a.id, r.id) as seq,
              (select recorded_by from ledger_entry
                where operator_id = '%1$s' and seq = 1) as person
            from aircraft a
              join requirement r using (operator_id)
              join ledger_head h using (operator_id), generate_series(1, 3) as n
            where a.operator_id = '%1$s';
          insert into ledger_entry (operator_id, seq, recorded_at, recorded_by, aircraft_id, kind,
              kind_version, record_id, json, leaf)
            select '%1$s', seq, at, person, aircraft_id, 'compliance', 1, id, '{}', sha256('')
            from done order by seq;
          insert into compliance (id, operator_id, ledger_seq, happened_at, happened_on,
              recorded_at, recorded_by, requirement_id, aircraft_id, kind, certified_by,
              licence_number, work_reference)
            select id, '%1$s', seq, at, at::date, at, person, requirement_id, aircraft_id, 'done',
              'An engineer', 'E-1', 'W-' || seq
            from done order by seq;
          drop table done;
          """
              .formatted(operator));
    }
    moveHead(connection, operator);
  }

  /** To the new end, so that filing goes on from there. */
  private static void moveHead(Connection connection, UUID operator) throws SQLException {
    try (var statement = connection.createStatement()) {
      String size = "(select max(seq) from ledger_entry where operator_id = '" + operator + "')";
      statement.execute(
          ("update ledger_head set size = %1$s, frontier = decode(repeat('00',"
                  + " 32 * bit_count(%1$s::bit(64))::int), 'hex') where operator_id = '%2$s'")
              .formatted(size, operator));
      statement.execute("analyze");
    }
  }
}
