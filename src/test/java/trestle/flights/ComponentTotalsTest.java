package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.reckoning.Counter;
import trestle.server.TestDatabase;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * What 2,000 components gathered over random histories of fits, removals, swaps and flights,
 * against a recomputation in plain SQL from the filed rows alone, as at several days.
 */
@QuarkusTest
class ComponentTotalsTest {
  private static final Instant BEGAN = Instant.parse("2025-01-01T00:00:00Z");
  private static final int DAYS = 100;

  /** From filed fitments, removals and flights, with nothing that the program derives. */
  private static final String IN_PLAIN_SQL =
      """
      with recursive stands as (
        select f.component_id as part, f.aircraft_id, f.assembly_id, f.happened_at as begins,
          coalesce((select min(r.happened_at) from removal r where r.fitment_id = f.id),
            'infinity') as ends
        from fitment f
        where f.operator_id = '%1$s' and not f.void
          and not exists (select 1 from fitment n where n.corrects = f.id)),
      aboard as (
        select part, aircraft_id, assembly_id, begins, ends from stands
        union all
        select a.part, s.aircraft_id, s.assembly_id, greatest(a.begins, s.begins),
          least(a.ends, s.ends)
        from aboard a join stands s on s.part = a.assembly_id
        where greatest(a.begins, s.begins) < least(a.ends, s.ends))
      select a.part, sum(extract(epoch from v.landing_at - v.take_off_at))::bigint
      from aboard a join flight v on v.aircraft_id = a.aircraft_id
        and v.landing_at > a.begins and v.landing_at <= a.ends and v.happened_on <= '%2$s'
      group by a.part
      """;

  @Inject Hangar hangar;
  @Inject Backlog backlog;
  @Inject JourneyLog log;
  @Inject ComponentLines lines;
  @Inject Operators operators;
  @Inject Members members;

  @Test
  void totalsAreThoseOfARecomputationInPlainSql() throws SQLException {
    Viewer owner = Company.founded("component-totals", operators, members).viewer(Role.OWNER);
    List<UUID> aircraft = flown(owner);
    RandomFitments fitments = new RandomFitments(20251125, owner);
    List<UUID> parts;
    try (Connection connection = TestDatabase.asSuperuser()) {
      parts = fitments.make(aircraft, 2_000, 300, 6_000, BEGAN, Duration.ofDays(DAYS));
      fitments.write(connection);
      try (var statement = connection.createStatement()) {
        statement.execute("analyze fitment, removal, flight");
      }
      for (int day : new int[] {10, 50, DAYS + 1}) {
        LocalDate asAt = owner.dateOf(BEGAN.plus(Duration.ofDays(day)));
        Map<UUID, Long> expected = inPlainSql(connection, owner, asAt);
        Map<UUID, Long> gathered = gathered(owner, parts, asAt);
        assertThat(gathered).as("as at %s", asAt).isEqualTo(expected);
        assertThat(expected.size()).isGreaterThan(day == 10 ? 100 : 700);
      }
    }
  }

  /** Hours since these records began, of components that gathered any. */
  private Map<UUID, Long> gathered(Viewer owner, List<UUID> parts, LocalDate asAt) {
    Map<UUID, ComponentLine> all = lines.of(owner, parts, View.asAt(asAt));
    Map<UUID, Long> gathered = new HashMap<>();
    for (int i = 0; i < parts.size(); i++) {
      ComponentLine line = all.get(parts.get(i));
      long sum = line.sinceNew(Counter.HOURS) - 3600L * i;
      assertThat(line.sinceOverhaul(Counter.HOURS)).isEqualTo(sum);
      if (sum != 0) {
        gathered.put(parts.get(i), sum);
      }
    }
    return gathered;
  }

  private static Map<UUID, Long> inPlainSql(Connection connection, Viewer owner, LocalDate asAt)
      throws SQLException {
    Map<UUID, Long> sums = new HashMap<>();
    try (var statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(IN_PLAIN_SQL.formatted(owner.operatorId(), asAt))) {
      while (rows.next()) {
        sums.put(rows.getObject(1, UUID.class), rows.getLong(2));
      }
    }
    return sums;
  }

  private List<UUID> flown(Viewer owner) {
    Random random = new Random(7);
    List<UUID> aircraft = new ArrayList<>();
    List<Backlog.Sheet> sheets = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      UUID each = hangar.single(owner, "QX-T%02d".formatted(i), BEGAN);
      aircraft.add(each);
      for (int day = 0; day < DAYS; day += 2) {
        Instant off =
            BEGAN.plus(Duration.ofDays(day)).plus(Duration.ofMinutes(random.nextInt(1_200)));
        Instant on = off.plus(Duration.ofMinutes(10 + random.nextInt(200)));
        FlightDraft flight = FlightDraft.of("PM", "PM", off, on, 1, "A. Pilot");
        sheets.add(new Backlog.Sheet(owner, on, each, List.of(flight)));
      }
    }
    backlog.file(owner, sheets);
    log.rebuild(owner, aircraft);
    return aircraft;
  }
}
