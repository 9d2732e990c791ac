package trestle.speed;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Arrays;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.ledger.Act;
import trestle.ledger.Heads;
import trestle.ledger.MerkleFrontier;
import trestle.ledger.PrintedProof;
import trestle.ledger.Proofs;
import trestle.ledger.SignedHead;
import trestle.ledger.verify.Verdict;
import trestle.ledger.verify.Verifier;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.server.TestDatabase;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.web.Walls;

/**
 * Verifying a ledger of a million records, and making proofs of it. One journey log entry is filed
 * through the use case, the others are copies of it under other ids and numbers, with lines,
 * hashes, and kept subtrees as the filing would have made them; -Dtrestle.records=N for fewer.
 */
@QuarkusTest
class LedgerBenchmark {
  private static final int RECORDS = Integer.getInteger("trestle.records", 1_000_000);
  private static final int TIMES = 200;

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject JourneyLog log;
  @Inject Verifier verifier;
  @Inject Heads heads;
  @Inject Proofs proofs;
  @Inject Walls walls;
  @Inject InstantSource clock;

  @Test
  void verifyingAndProving() throws Exception {
    Company company = Company.founded("ledger-" + UUID.randomUUID(), operators, members);
    Viewer owner = company.viewer(Role.OWNER);
    Instant off = clock.instant().minusSeconds(86_400);
    UUID aircraft = hangar.single(owner, "QX-MNY", off.minusSeconds(86_400));
    log.file(owner, aircraft, flight(off), null);
    fill(owner.operatorId());
    for (boolean textOnly : new boolean[] {false, false, true, true}) {
      verify(owner.operatorId(), textOnly);
    }
    prove(owner);
  }

  private static FlightDraft flight(Instant off) {
    return FlightDraft.of("Port Maddern", "Skerry", off, off.plusSeconds(3_600), 1, "I. Tarn");
  }

  private void verify(UUID operator, boolean textOnly) {
    long before = System.nanoTime();
    Verdict verdict = verifier.verify(operator, textOnly);
    double seconds = (System.nanoTime() - before) / 1e9;
    assertThat(verdict.trouble()).isEmpty();
    System.out.printf(
        "verified %d records%s in %.1f s: %.0f a second, %d MB in use%n",
        verdict.size(),
        textOnly ? ", their text alone," : "",
        seconds,
        verdict.size() / seconds,
        (Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory()) >> 20);
  }

  private void prove(Viewer owner) throws Exception {
    SignedHead head =
        walls.reading(
            owner,
            () -> heads.signed(new Act(owner.operatorId(), owner.personId(), clock.instant())));
    Random any = new Random(1);
    long[] nanos = new long[TIMES];
    int letters = 0;
    for (int i = 0; i < TIMES; i++) {
      long seq = 1 + any.nextInt((int) head.size());
      long before = System.nanoTime();
      Callable<PrintedProof> making =
          () -> new PrintedProof(head, proofs.inclusion(owner.operatorId(), seq, head.size()));
      PrintedProof proof = walls.reading(owner, making);
      nanos[i] = System.nanoTime() - before;
      assertThat(proof.holds()).isTrue();
      letters = Math.max(letters, proof.text().length());
    }
    Arrays.sort(nanos);
    System.out.printf(
        "a proof: median %.1f ms, 95 of 100 within %.1f ms; %d letters%n",
        nanos[TIMES / 2] / 1e6, nanos[TIMES * 95 / 100] / 1e6, letters);
  }

  private static void fill(UUID operator) throws SQLException {
    long before = System.nanoTime();
    try (Connection connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement()) {
      connection.setAutoCommit(false);
      statement.execute("set session_replication_role = 'replica'");
      statement.execute(
          """
          create temp table copies as
          select gen_random_uuid() id, s seq, f.ctid as of
          from flight f, generate_series(
            (select size + 1 from ledger_head where operator_id = f.operator_id), %d) s
          where f.operator_id = '%s'
          """
              .formatted(RECORDS, operator));
      statement.execute(
          """
          create temp table rows as select f.*, c.id new_id, c.seq new_seq
          from copies c join flight f on f.ctid = c.of;
          update rows set id = new_id, entry_id = new_id, ledger_seq = new_seq, form_key = null;
          alter table rows drop new_id, drop new_seq;
          insert into flight select * from rows order by ledger_seq;
          """);
      statement.execute(
          """
          insert into ledger_entry
          select e.operator_id, c.seq, e.recorded_at, e.recorded_by, e.aircraft_id, e.kind,
            e.kind_version, c.id, j.json, sha256('\\x00'::bytea || convert_to(j.json, 'UTF8'))
          from ledger_entry e
          join flight f on f.operator_id = e.operator_id and f.id = e.record_id
          join copies c on c.of = f.ctid,
          lateral (select regexp_replace(regexp_replace(replace(e.json, e.record_id::text,
            c.id::text), '"ledger_seq":\\d+', '"ledger_seq":' || c.seq), '"form_key":"[^"]*",', '')
            json) j
          where e.operator_id = '%s' and e.kind = 'journey-log-entry' order by c.seq
          """
              .formatted(operator));
      connection.commit();
      heads(connection, operator);
      connection.commit();
      statement.execute("drop table copies; drop table rows");
      connection.commit();
      connection.setAutoCommit(true);
      statement.execute("vacuum analyze flight; ");
      statement.execute("vacuum analyze ledger_entry");
    }
    System.out.printf("filled in %d s%n", (System.nanoTime() - before) / 1_000_000_000);
  }

  /** What the filing keeps beside the lines. */
  private static void heads(Connection connection, UUID operator) throws SQLException {
    MerkleFrontier[] edge = {MerkleFrontier.EMPTY};
    try (var kept = connection.prepareStatement("insert into ledger_subtree values (?, ?, ?, ?)");
        var leaves =
            connection.prepareStatement(
                "select leaf from ledger_entry where operator_id = ? order by seq");
        var head =
            connection.prepareStatement(
                "update ledger_head set size = ?, frontier = ?, root = ? where operator_id = ?")) {
      leaves.setFetchSize(2_000);
      leaves.setObject(1, operator);
      try (var rows = leaves.executeQuery()) {
        while (rows.next()) {
          edge[0] =
              edge[0].append(
                  rows.getBytes(1),
                  (level, place, root) -> {
                    if (level >= 8) {
                      keep(kept, operator, level, place, root);
                    }
                  });
        }
      }
      kept.executeBatch();
      head.setLong(1, edge[0].size());
      head.setBytes(2, edge[0].bytes());
      head.setBytes(3, edge[0].root());
      head.setObject(4, operator);
      head.execute();
    }
  }

  private static void keep(
      java.sql.PreparedStatement kept, UUID operator, int level, long place, byte[] root) {
    try {
      kept.setObject(1, operator);
      kept.setInt(2, level);
      kept.setLong(3, place);
      kept.setBytes(4, root);
      kept.addBatch();
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }
}
