package trestle.speed;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import trestle.ledger.MerkleFrontier;
import trestle.server.AppProcess;
import trestle.server.DataOnDisk;

/**
 * A million filed records, kept and taken back by the packaged program in a heap of 128 MB. The
 * records are written past the use cases, but whole: each with its line, hash and derived step.
 */
class BackupBenchmark {
  private static final int RECORDS = Integer.getInteger("trestle.records", 1_000_000);
  private static final int AIRCRAFT = 200;
  private static final String HEAP = "-Xmx128m";
  private static final Pattern PEAK = Pattern.compile("VmHWM:\\s+(\\d+) kB");

  @TempDir Path parent;

  @Test
  void aMillionRecords() throws Exception {
    Path from = parent.resolve("from");
    Path to = parent.resolve("to");
    Path file = parent.resolve("kept.zip");
    try (AppProcess app = AppProcess.on(from).start().ready()) {
      DataOnDisk data = new DataOnDisk(from);
      try (Connection connection = data.asSuperuser()) {
        fill(connection);
      }
      String kept = timed("backup while the program runs", from, "backup", file.toString());
      assertThat(kept).contains("ledger of %,d lines".formatted(RECORDS));
    }
    System.out.printf("the file: %,d MB%n", Files.size(file) >> 20);
    String back = timed("restore", to, "restore", file.toString());
    assertThat(back).contains("the same sizes and roots as in the backup");
  }

  private static String timed(String what, Path directory, String... arguments) throws IOException {
    long begin = System.nanoTime();
    long peak = 0;
    try (AppProcess command =
        AppProcess.on(directory).javaOptions(HEAP).arguments(arguments).start()) {
      while (command.handle().isAlive()) {
        peak = Math.max(peak, peakOf(command.handle().pid()));
        LockSupport.parkNanos(Duration.ofMillis(200).toNanos());
      }
      System.out.printf(
          "%s: %.1f s, at most %,d MB resident%n",
          what, (System.nanoTime() - begin) / 1e9, peak >> 10);
      assertThat(command.exitCode()).as(command.output()).isZero();
      System.out.println(command.output());
      return command.output();
    }
  }

  private static long peakOf(long process) {
    try {
      Matcher found = PEAK.matcher(Files.readString(Path.of("/proc/" + process + "/status")));
      return found.find() ? Long.parseLong(found.group(1)) : 0;
    } catch (IOException e) {
      return 0;
    }
  }

  private static void fill(Connection connection) throws SQLException {
    execute(
        connection,
        """
        insert into person (id, name, sign_in_name, created_at)
          values ('00000000-0000-7000-8000-000000000001', 'A. Person', 'a', now());
        insert into operator (id, name, time_zone, created_at, created_by)
          values ('00000000-0000-7000-8000-000000000002', 'Tern Air', 'UTC', now(),
            '00000000-0000-7000-8000-000000000001');
        insert into aircraft (operator_id, id)
          select '00000000-0000-7000-8000-000000000002',
            ('00000000-0000-7000-9000-' || lpad(n::text, 12, '0'))::uuid
          from generate_series(1, %1$d) n;
        create temp table made as
          select n as seq, gen_random_uuid() as id, gen_random_uuid() as entry,
            gen_random_uuid() as key,
            ('00000000-0000-7000-9000-' || lpad((1 + n %% %1$d)::text, 12, '0'))::uuid as aircraft,
            timestamptz '2000-01-01 09:00Z' + n * interval '9 minutes' as at
          from generate_series(1, %2$d) n;
        insert into ledger_entry (operator_id, seq, recorded_at, recorded_by, aircraft_id, kind,
            kind_version, record_id, json, leaf)
          select '00000000-0000-7000-8000-000000000002', seq, at + interval '2 hours',
            '00000000-0000-7000-8000-000000000001', aircraft, 'journey-log-entry', 1, id, json,
            sha256('\\x00' || convert_to(json, 'UTF8'))
          from (select *, jsonb_build_object('kind', 'journey-log-entry', 'version', 1, 'id', id,
              'operator_id', '00000000-0000-7000-8000-000000000002', 'ledger_seq', seq,
              'aircraft_id', aircraft, 'entry_id', entry, 'form_key', key, 'happened_at', at,
              'happened_on', at::date, 'take_off_at', at, 'landing_at', at + interval '66 minutes',
              'from_place', 'Port Maddern', 'to_place', 'Skell Island', 'landings', 1,
              'commander', 'A. Person', 'remarks', 'Freight, ' || seq || ' kg')::text as json
            from made) lines;
        insert into flight (id, operator_id, ledger_seq, happened_at, happened_on, recorded_at,
            recorded_by, form_key, aircraft_id, entry_id, from_place, to_place, take_off_at,
            landing_at, landings, commander, remarks)
          select id, '00000000-0000-7000-8000-000000000002', seq, at, at::date,
            at + interval '2 hours', '00000000-0000-7000-8000-000000000001', key, aircraft, entry,
            'Port Maddern', 'Skell Island', at, at + interval '66 minutes', 1, 'A. Person',
            'Freight, ' || seq || ' kg'
          from made;
        insert into usage_step (operator_id, aircraft_id, entry_id, day, landed_at, hours,
            flight_hours, landings)
          select '00000000-0000-7000-8000-000000000002', aircraft, entry, at::date,
            extract(epoch from at)::bigint + 3960, 3960, 3960, 1
          from made;
        drop table made;
        """
            .formatted(AIRCRAFT, RECORDS));
    head(connection);
    execute(connection, "analyze");
  }

  private static void head(Connection connection) throws SQLException {
    connection.setAutoCommit(false);
    MerkleFrontier edge = MerkleFrontier.EMPTY;
    try (var statement = connection.createStatement()) {
      statement.setFetchSize(10_000);
      var leaves = statement.executeQuery("select leaf from ledger_entry order by seq");
      while (leaves.next()) {
        edge = edge.append(leaves.getBytes(1));
      }
    }
    try (var statement =
        connection.prepareStatement(
            "insert into ledger_head (operator_id, size, frontier, root)"
                + " values ('00000000-0000-7000-8000-000000000002', ?, ?, ?)")) {
      statement.setLong(1, edge.size());
      statement.setBytes(2, edge.bytes());
      statement.setBytes(3, edge.root());
      statement.execute();
    }
    connection.commit();
    connection.setAutoCommit(true);
  }

  private static void execute(Connection connection, String sql) throws SQLException {
    try (var statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}
