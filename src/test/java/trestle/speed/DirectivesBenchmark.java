package trestle.speed;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.Test;
import trestle.directives.Applicability;
import trestle.directives.Assessments;
import trestle.directives.DirectiveSheet;
import trestle.directives.Directives;
import trestle.directives.Judged;
import trestle.directives.NewAssessment;
import trestle.directives.NewDirective;
import trestle.directives.NewParagraph;
import trestle.directives.ParagraphSheet;
import trestle.directives.Status;
import trestle.directives.Surveys;
import trestle.directives.Told;
import trestle.directives.Verdict;
import trestle.fleet.Fleet;
import trestle.fleet.Particulars;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.server.TestDatabase;
import trestle.standing.Standings;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * Whom one new directive names among 200,000 components, fitted to 1,000 aircraft: once where all
 * have its part number, and once where one in a hundred has; once a run of serials, once all. The
 * components are written as rows with their lines in the ledger, without the ledger's hashes and
 * past the triggers.
 */
@QuarkusTest
class DirectivesBenchmark {
  private static final int AIRCRAFT = 1_000;
  private static final int COMPONENTS = 200_000;
  private static final int TIMES = 15;
  private static final int ASSESSED = 200;

  /** A run, nearly all, and all. */
  private static final List<String> NAMED =
      List.of("K101000 through K101999 except K101130", "K100200 and up", "all");

  @Inject Operators operators;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject Directives directives;
  @Inject Assessments assessments;
  @Inject Surveys surveys;
  @Inject Standings standings;
  @Inject InstantSource clock;

  @Test
  void oneNewDirective() throws Exception {
    for (int parts : new int[] {1, 100}) {
      Company company = Company.founded("parts-" + UUID.randomUUID(), operators, members);
      Viewer owner = company.viewer(Role.OWNER);
      LocalDate today = owner.dateOf(clock.instant());
      long began = System.nanoTime();
      List<UUID> aircraft = aircraft(owner);
      try (Connection connection = TestDatabase.asSuperuser()) {
        fill(connection, company.operatorId(), parts);
      }
      System.out.printf("filled in %d s%n", (System.nanoTime() - began) / 1_000_000_000);
      View now = View.asAt(today);
      System.out.printf("%d of %d have its part number%n", COMPONENTS / parts, COMPONENTS);
      List<DirectiveSheet> entered = new ArrayList<>();
      for (String serials : NAMED) {
        DirectiveSheet directive = entered(owner, today, serials);
        time(serials + ", its page", () -> named(owner, directive, now));
        time(
            serials + ", what is to be assessed",
            () -> surveys.toBeAssessed(owner, Surveys.Page.first(50), now).rows());
        entered.add(directive);
      }
      for (DirectiveSheet directive : entered) {
        assessed(owner, directive, now);
        time(
            directive.number() + ", its page, " + ASSESSED + " of them assessed",
            () -> named(owner, directive, now));
      }
      time(
          "what is to be assessed, " + ASSESSED + " of each assessed",
          () -> surveys.toBeAssessed(owner, Surveys.Page.first(50), now).rows());
      time(
          "standing of one aircraft with both",
          () -> standings.asAt(owner, List.of(aircraft.get(7)), now).size());
    }
  }

  private int named(Viewer owner, DirectiveSheet directive, View now) {
    return surveys.ofDirective(owner, directive, now, 20).stream().mapToInt(Told::all).sum();
  }

  private void assessed(Viewer owner, DirectiveSheet directive, View now) {
    ParagraphSheet paragraph = directives.paragraphs(owner, directive.id()).get(0);
    Surveys.Page page = Surveys.Page.first(ASSESSED);
    for (Status.Line line :
        surveys.ofParagraph(owner, paragraph, Judged.State.TO_BE_ASSESSED, page, now).lines()) {
      assessments.assess(
          owner,
          NewAssessment.asFitted(
                  paragraph,
                  line.item().componentId(),
                  Verdict.DOES_NOT,
                  "Later points",
                  clock.instant())
              .followingThePart());
    }
  }

  private DirectiveSheet entered(Viewer owner, LocalDate today, String serials) {
    UUID id =
        directives.enter(
            owner, NewDirective.of("Nobody", "X-" + serials, today.minusDays(5), "Points"), null);
    directives.addParagraph(
        owner,
        id,
        NewParagraph.of(
            "(a)",
            "Points",
            Applicability.ofParts(serials, "MG-1"),
            Rule.first(Limit.Every.of(Counter.HOURS, "100"))),
        null);
    return directives.one(owner, id);
  }

  private List<UUID> aircraft(Viewer owner) {
    List<UUID> ids = new ArrayList<>();
    for (int i = 0; i < AIRCRAFT; i++) {
      ids.add(
          fleet.register(
              owner,
              new Fleet.Registering(
                  Particulars.of("QX-%03X".formatted(i), "Skerry 200", "S-" + i),
                  List.of(),
                  clock.instant().minus(Duration.ofDays(90)),
                  Map.of(Counter.HOURS, 6_000 * 3600L),
                  null)));
    }
    return ids;
  }

  private static void time(String what, Callable<Integer> work) throws Exception {
    double[] milliseconds = new double[TIMES];
    int found = 0;
    for (int i = 0; i < 5; i++) {
      found = work.call();
    }
    for (int i = 0; i < TIMES; i++) {
      long begin = System.nanoTime();
      work.call();
      milliseconds[i] = (System.nanoTime() - begin) / 1e6;
    }
    Arrays.sort(milliseconds);
    System.out.printf(
        "%s: found %d; median %.0f ms, slowest %.0f ms%n",
        what, found, milliseconds[TIMES / 2], milliseconds[TIMES - 1]);
  }

  private static void fill(Connection connection, UUID operator, int parts) throws SQLException {
    try (var statement = connection.createStatement()) {
      statement.execute(
          """
          set session_replication_role = replica;
          create temp table part as
            select n, gen_random_uuid() as component_id, gen_random_uuid() as fitment_id, h.size + 2 * n as seq,
              (select recorded_by from ledger_entry
                where operator_id = '%1$s' and seq = 1) as person,
              a.id as aircraft_id, now() - interval '80 days' as at
            from ledger_head h, generate_series(1, %2$d) as n
              join (select id, row_number() over (order by id) as i from aircraft
                where operator_id = '%1$s') a on a.i = 1 + n %% %3$d
            where h.operator_id = '%1$s';
          insert into ledger_entry (operator_id, seq, recorded_at, recorded_by, aircraft_id, kind,
              kind_version, record_id, json, leaf)
            select uuid '%1$s', seq - 1, at, person, null::uuid, 'component', 1, component_id, '{}', sha256('')
            from part union all
            select uuid '%1$s', seq, at, person, aircraft_id, 'fitment', 1, fitment_id, '{}', sha256('')
            from part;
          insert into component (id, operator_id, ledger_seq, happened_at, happened_on, recorded_at,
              recorded_by, component_id, kind, part_number, serial, description, manufacturer)
            select component_id, '%1$s', seq - 1, at, at::date, at, person, component_id, 'other',
              'MG-' || (1 + n %% %4$d), 'K' || (100000 + n), 'Magneto', 'Nobody'
            from part;
          insert into fitment (id, operator_id, ledger_seq, happened_at, happened_on, recorded_at,
              recorded_by, component_id, aircraft_id, position_code)
            select fitment_id, '%1$s', seq, at, at::date, at, person, component_id, aircraft_id,
              'place-' || n / %3$d
            from part;
          insert into fitted_span
            select '%1$s', fitment_id, component_id, aircraft_id, 'place-' || n / %3$d, false,
              tstzrange(at, null, '[)')
            from part;
          drop table part;
          set session_replication_role = origin;
          update ledger_head set
              size = (select max(seq) from ledger_entry where operator_id = '%1$s'),
              frontier = decode(repeat('00', 32 * bit_count(
                (select max(seq) from ledger_entry where operator_id = '%1$s')::bit(64))::int), 'hex')
            where operator_id = '%1$s';
          analyze;
          """
              .formatted(operator, COMPONENTS, AIRCRAFT, parts));
    }
  }
}
