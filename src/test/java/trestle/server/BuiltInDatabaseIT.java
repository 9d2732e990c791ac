package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The packaged program on its own PostgreSQL: kept, locked, killed and started again. */
class BuiltInDatabaseIT {
  private static final String NOTE = "CREATE TABLE IF NOT EXISTS note_by_test (n int)";

  private static final String MARK =
      "SELECT obj_description('flyway_schema_history'::regclass, 'pg_class')";

  @TempDir Path parent;

  @Test
  void isReadyAndKeepsItsDataFromStartToStart() throws Exception {
    Path directory = parent.resolve("data");
    DataOnDisk data = new DataOnDisk(directory);
    try (AppProcess app = AppProcess.on(directory).start()) {
      assertThat(app.statusOf("/q/health/ready")).isEqualTo(200);
      data.execute(NOTE);
      data.execute("INSERT INTO note_by_test VALUES (1)");
      writesBeforeItAnswers(data);
      assertThat(data.ask(MARK).get(0)).matches("\\d+ files, [0-9a-f]{8}");
      data.execute("COMMENT ON TABLE flyway_schema_history IS 'another release'");
      isClosedToOthers(data);
      assertThat(sessionOf(data.postmaster()))
          .as("Ctrl-C reaches the program alone, which then stops PostgreSQL last")
          .isNotEqualTo(sessionOf(app.handle().pid()));
    }
    assertThat(data.processFile()).as("PostgreSQL is stopped with the program").doesNotExist();
    assertThat(Files.readString(directory.resolve("postgres.log")))
        .contains("database system is shut down");
    try (AppProcess app = AppProcess.on(directory).start()) {
      assertThat(app.statusOf("/q/health/ready")).isEqualTo(200);
      assertThat(data.ask("SELECT n FROM note_by_test")).containsExactly("1");
      assertThat(data.ask(MARK).get(0)).as("migrated again").contains(" files, ");
    }
  }

  private static void writesBeforeItAnswers(DataOnDisk data) throws SQLException {
    for (String setting : List.of("fsync", "full_page_writes", "synchronous_commit")) {
      assertThat(data.ask("SHOW " + setting)).as(setting).containsExactly("on");
    }
    assertThat(data.ask("SHOW data_checksums")).containsExactly("on");
  }

  private static void isClosedToOthers(DataOnDisk data) throws IOException {
    assertThat(permissions(data.directory())).isEqualTo("rwx------");
    assertThat(permissions(data.directory().resolve("postgres"))).isEqualTo("rwx------");
    try (Stream<Path> secrets = Files.list(data.directory().resolve("secrets"))) {
      assertThat(secrets.map(BuiltInDatabaseIT::permissions)).hasSize(6).containsOnly("rw-------");
    }
    assertThat(data.listensOn()).isEqualTo("127.0.0.1");
    for (String user : List.of("postgres", "trestle_owner", "trestle_app")) {
      assertThatThrownBy(() -> data.connect(user, "a guess"))
          .hasMessageContaining("password authentication failed");
    }
  }

  /** The terminal's session of a process, as Linux shows it. */
  private static String sessionOf(long process) throws IOException {
    String status = Files.readString(Path.of("/proc/" + process + "/stat"));
    return status.substring(status.lastIndexOf(')') + 2).split(" ")[3];
  }

  private static String permissions(Path path) {
    try {
      return PosixFilePermissions.toString(Files.getPosixFilePermissions(path));
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void startsByItselfAfterBeingKilledWithAllThatWasAcknowledged() throws Exception {
    Path directory = parent.resolve("data");
    DataOnDisk data = new DataOnDisk(directory);
    List<String> acknowledged = new ArrayList<>();
    for (int cycle = 0; cycle < 4; cycle++) {
      AppProcess app = AppProcess.on(directory).start().ready();
      data.execute(NOTE);
      assertThat(data.ask("SELECT n FROM note_by_test ORDER BY n")).isEqualTo(acknowledged);
      data.execute("INSERT INTO note_by_test VALUES (" + cycle + ")");
      acknowledged.add(Integer.toString(cycle));
      long postmaster = data.postmaster();
      app.kill();
      assertThat(ProcessHandle.of(postmaster)).as("PostgreSQL outlives its program").isPresent();
      if (cycle % 2 == 1) {
        ProcessHandle.of(postmaster).ifPresent(ProcessHandle::destroyForcibly);
      }
    }
    try (AppProcess app = AppProcess.on(directory).start()) {
      assertThat(app.statusOf("/q/health/ready")).isEqualTo(200);
      assertThat(data.ask("SELECT n FROM note_by_test ORDER BY n")).isEqualTo(acknowledged);
    }
  }

  @Test
  void aProcessNumberThatIsSomebodyElsesByNowIsNoHindrance() throws Exception {
    Path directory = parent.resolve("data");
    DataOnDisk data = new DataOnDisk(directory);
    AppProcess.on(directory).start().ready().stop();
    String stranger = Long.toString(ProcessHandle.current().pid());
    Files.write(
        data.processFile(),
        List.of(stranger, directory.resolve("postgres").toString(), "1", "1", "", "", "", ""));
    try (AppProcess app = AppProcess.on(directory).start()) {
      assertThat(app.statusOf("/q/health/ready")).isEqualTo(200);
      assertThat(ProcessHandle.current().isAlive()).isTrue();
    }
  }

  @Test
  void theSecondStartOnOneDirectorySaysSoAndLeavesTheFirstAlone() {
    Path directory = parent.resolve("data");
    try (AppProcess first = AppProcess.on(directory).start().ready();
        AppProcess second = AppProcess.on(directory).start()) {
      assertThat(second.exitCode()).isEqualTo(1);
      assertThat(second.output())
          .isEqualTo(
              "Another Trestle (process %d) is running on the data directory %s. Stop it first, or set TRESTLE_DATA_DIR to another directory.\n"
                  .formatted(first.handle().pid(), directory));
      assertThat(first.statusOf("/q/health/ready")).isEqualTo(200);
    }
  }

  @Test
  void aFileIsNoDataDirectory() throws IOException {
    Path file = Files.createFile(parent.resolve("file"));
    try (AppProcess app = AppProcess.on(file).start()) {
      assertThat(app.exitCode()).isEqualTo(1);
      assertThat(app.output())
          .isEqualTo("TRESTLE_DATA_DIR must name a directory, but " + file + " is a file.\n");
    }
  }

  @Test
  void theDataOfAnotherPostgresVersionIsNotTouched() throws IOException {
    Path version = parent.resolve("data").resolve("postgres").resolve("PG_VERSION");
    Files.createDirectories(version.getParent());
    Files.writeString(version, "16\n");
    try (AppProcess app = AppProcess.on(parent.resolve("data")).start()) {
      assertThat(app.exitCode()).isEqualTo(1);
      assertThat(app.output())
          .contains("was written by PostgreSQL 16, and this Trestle brings PostgreSQL 17")
          .doesNotContain("Exception");
    }
    assertThat(version.getParent()).isDirectoryContaining("glob:**PG_VERSION");
  }

  @Test
  void wallsThatWereOpenedSinceAreSeenAtTheNextStart() throws Exception {
    Path directory = parent.resolve("data");
    DataOnDisk data = new DataOnDisk(directory);
    try (AppProcess app = AppProcess.on(directory).start().ready()) {
      data.execute("ALTER TABLE membership NO FORCE ROW LEVEL SECURITY");
    }
    try (AppProcess app = AppProcess.on(directory).start()) {
      assertThat(app.exitCode()).isEqualTo(1);
      assertThat(app.output())
          .contains("Row-level security is not forced on membership")
          .doesNotContain("\tat ");
    }
    assertThat(data.processFile()).as("PostgreSQL is stopped after a refusal too").doesNotExist();
  }

  @Test
  void aTakenPortIsNamed() throws IOException {
    try (var taken = new java.net.ServerSocket(0, 1, java.net.InetAddress.getLoopbackAddress());
        AppProcess app =
            AppProcess.on(parent.resolve("data"))
                .with("QUARKUS_HTTP_PORT", Integer.toString(taken.getLocalPort()))
                .start()) {
      assertThat(app.exitCode()).isEqualTo(1);
      assertThat(app.output())
          .contains("Port " + taken.getLocalPort() + " on 127.0.0.1 can't be used")
          .doesNotContain("\tat ");
    }
  }
}
