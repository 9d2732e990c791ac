package trestle.speed;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Arrays;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.server.TestDatabase;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * The history page of one aircraft that has a million lines in the ledger, its newest page and one
 * in the middle. The lines are written past the ledger, all alike.
 */
@QuarkusTest
class HistoryBenchmark {
  private static final int LINES = 1_000_000;
  private static final int TIMES = 200;

  /** Asked before anything is counted, as of a program that has run for a while. */
  private static final int WARM = 500;

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject JourneyLog log;

  @Test
  void aMillionLines() throws Exception {
    Company company = Company.founded("history-" + UUID.randomUUID(), operators, members);
    Viewer owner = company.viewer(Role.OWNER);
    Instant began = Instant.parse("2025-01-01T12:00:00Z");
    UUID aircraft = hangar.single(owner, "QX-MIL", began);
    log.file(
        owner,
        aircraft,
        FlightDraft.of("PM", "PM", began, began.plusSeconds(3600), 1, "A. Pilot"),
        null);
    try (Connection connection = TestDatabase.asSuperuser()) {
      fill(connection, company.operatorId(), aircraft);
    }
    Visitor auditor = company.visitor(Role.AUDITOR);
    time(auditor, "newest page", "/history?aircraft=" + aircraft);
    time(auditor, "page in the middle", "/history?aircraft=" + aircraft + "&before=" + LINES / 2);
    time(auditor, "newest page of all aircraft", "/history");
  }

  private static void time(Visitor visitor, String what, String path) {
    double[] milliseconds = new double[TIMES];
    for (int i = -WARM; i < TIMES; i++) {
      long begin = System.nanoTime();
      int status = visitor.get(path).statusCode();
      if (status != 200) {
        throw new AssertionError(path + " answered " + status);
      }
      if (i >= 0) {
        milliseconds[i] = (System.nanoTime() - begin) / 1e6;
      }
    }
    Arrays.sort(milliseconds);
    System.out.printf(
        "%s: median %.1f ms, 95 of 100 within %.1f ms%n",
        what, milliseconds[TIMES / 2], milliseconds[TIMES * 95 / 100]);
  }

  private static void fill(Connection connection, UUID operator, UUID aircraft)
      throws SQLException {
    try (var statement = connection.createStatement()) {
      statement.execute(
          """
          set session_replication_role = replica;
          insert into ledger_entry (operator_id, seq, recorded_at, recorded_by, aircraft_id, kind,
              kind_version, record_id, json, leaf)
            select e.operator_id, 1000 + n, e.recorded_at, e.recorded_by, e.aircraft_id, e.kind,
              e.kind_version, gen_random_uuid(), e.json, e.leaf
            from ledger_entry e, generate_series(1, %3$d) as n
            where e.operator_id = '%1$s' and e.kind = 'journey-log-entry'
              and e.aircraft_id = '%2$s';
          set session_replication_role = origin;
          analyze;
          checkpoint;
          """
              .formatted(operator, aircraft, LINES));
    }
  }
}
