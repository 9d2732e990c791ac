package trestle.server;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.hamcrest.Matchers.containsString;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Backups that nobody asks for: once a day, and before a new release changes the tables. */
@QuarkusTest
class KeptByItselfTest {
  private static final Instant NOW = Instant.parse("2026-11-26T02:00:00Z");

  @TempDir Path directory;
  @Inject ScheduledBackups scheduled;
  @Inject InstantSource clock;

  /** Some tests write long histories straight into tables, with ledger lines made up. */
  @BeforeAll
  static void withoutMadeUpLedgers() throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser()) {
      SpareDatabase.execute(connection, "set session_replication_role = replica");
      SpareDatabase.execute(
          connection,
          "create temporary table made_up as select distinct operator_id from ledger_entry"
              + " where leaf <> sha256('\\x00'::bytea || convert_to(json, 'UTF8'))");
      for (String table : List.of("ledger_entry", "ledger_head")) {
        SpareDatabase.execute(
            connection,
            "delete from " + table + " where operator_id in (select operator_id from made_up)");
      }
      SpareDatabase.execute(
          connection, "delete from operator where id in (select operator_id from made_up)");
    }
  }

  @Test
  void onceADayAndAFailureIsToldUntilOneSucceeds() throws Exception {
    BackupPlan plan = BackupPlan.parse("02:30", "2 days", ZoneId.of("UTC"));
    Path kept = directory.resolve("kept");
    scheduled.look(plan, kept);
    assertThat(scheduled.sentence()).isEmpty();
    assertThat(filesIn(kept)).singleElement().asString().matches(".*/trestle-\\d{8}T\\d{6}Z\\.zip");
    scheduled.look(plan, kept);
    assertThat(filesIn(kept)).as("none is due").hasSize(1);
    given().get("/q/health/well").then().statusCode(200);

    Path noDirectory = Files.createFile(directory.resolve("file"));
    scheduled.look(plan, noDirectory);
    assertThat(scheduled.sentence()).get().asString().startsWith("The last backup failed (");
    given().get("/q/health/well").then().statusCode(503).body(containsString("The last backup"));
    given().get("/q/health/ready").then().statusCode(200);

    scheduled.look(plan, directory.resolve("tried too soon"));
    assertThat(directory.resolve("tried too soon")).doesNotExist();
    ((TheClock) io.quarkus.arc.ClientProxy.unwrap(clock))
        .telling(
            clock.instant().plus(Duration.ofHours(1)),
            () -> {
              scheduled.look(plan, directory.resolve("tried again"));
              return null;
            });
    assertThat(filesIn(directory.resolve("tried again"))).hasSize(1);
    assertThat(scheduled.sentence()).isEmpty();
    given().get("/q/health/well").then().statusCode(200);
  }

  @Test
  void draftsOfKilledRunsAreTakenAwayAndNoOthers() throws Exception {
    String mine = "trestle-20260101T000000Z.zip";
    Path kept = Files.createDirectory(directory.resolve("drafts"));
    for (String left : List.of(mine + ".part", mine + "." + UUID.randomUUID() + ".part")) {
      longAgo(kept.resolve(left));
    }
    Path others = longAgo(kept.resolve("notes.zip.part"));
    Path beingWritten = Files.createFile(kept.resolve(mine + "." + UUID.randomUUID() + ".part"));
    scheduled.look(BackupPlan.parse("02:30", "2 days", ZoneId.of("UTC")), kept);
    assertThat(filesIn(kept))
        .hasSize(3)
        .contains(others, beingWritten)
        .anyMatch(file -> file.toString().matches(".*/trestle-\\d{8}T\\d{6}Z\\.zip"));
  }

  private static Path longAgo(Path file) throws Exception {
    return Files.setLastModifiedTime(
        Files.createFile(file), FileTime.from(Instant.now().minus(Duration.ofHours(2))));
  }

  @Test
  void whatANewReleaseChangesIsKeptAsItWasAndComesBackInIt() throws Exception {
    try (SpareDatabase older = SpareDatabase.empty();
        SpareDatabase newer = SpareDatabase.empty()) {
      keep(older, directory);
      assertThat(filesIn(directory)).as("there is nothing yet").isEmpty();
      older.migrate("027");
      try (Connection owner = older.asOwner()) {
        SpareDatabase.execute(
            owner,
            "insert into person (id, name, sign_in_name, created_at)"
                + " values (gen_random_uuid(), 'M. Oduya', 'oduya', now())");
      }
      for (int i = 5; i > 0; i--) {
        Files.createFile(
            directory.resolve("before-upgrade-01%d-2026010%dT000000Z.zip".formatted(i, i)));
      }
      List<String> ahead =
          Stream.of(1, 2, 3).map("before-upgrade-020-2031010%dT000000Z.zip"::formatted).toList();
      for (String name : ahead) {
        Files.createFile(directory.resolve(name));
      }
      String said = keep(older, directory);
      Path kept = directory.resolve("before-upgrade-027-20261126T020000Z.zip");
      assertThat(said).contains("As they were they are kept in " + kept);
      assertThat(filesIn(directory))
          .extracting(file -> file.getFileName().toString())
          .as("those of a clock that was ahead take no place")
          .containsAll(ahead)
          .filteredOn(name -> !ahead.contains(name))
          .containsExactlyInAnyOrder(
              kept.getFileName().toString(),
              "before-upgrade-015-20260105T000000Z.zip",
              "before-upgrade-014-20260104T000000Z.zip");

      older.migrate(null);
      keep(older, directory.resolve("not"));
      assertThat(directory.resolve("not")).as("nothing is to be changed").doesNotExist();

      newer.restore(kept, false);
      try (Connection restored = newer.asSuperuser();
          Connection upgraded = older.asSuperuser()) {
        assertThat(SpareDatabase.list(restored, "select name from person"))
            .containsExactly("M. Oduya");
        assertThat(SpareDatabase.shape(restored)).isEqualTo(SpareDatabase.shape(upgraded));
      }
    }
  }

  @Test
  void withoutTheBackupNothingIsChanged() throws Exception {
    Path file = Files.createFile(directory.resolve("file"));
    try (SpareDatabase older = SpareDatabase.empty()) {
      older.migrate("027");
      assertThatThrownBy(() -> keep(older, file))
          .isInstanceOf(StartRefused.class)
          .hasMessageStartingWith(
              "The tables must be changed for this release, but the backup before that could not be"
                  + " written, so nothing was changed: ");
    }
  }

  private static String keep(SpareDatabase database, Path directory) {
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    UpgradeBackup.make(
        database.url(), SpareDatabase.users(), directory, NOW, new PrintStream(said, true));
    return said.toString();
  }

  private static List<Path> filesIn(Path directory) throws Exception {
    try (Stream<Path> files = Files.list(directory)) {
      return files.toList();
    }
  }
}
