package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which migrations a build has, and what a database says of those it had. */
class MigrationsTest {

  @Test
  void theMarkIsOfNamesAndContentsOfMigrationsAlone(@TempDir Path directory) throws IOException {
    Path one = directory.resolve("one.jar");
    String mark = mark(one, Map.of("db/migration/V1__a.sql", "select 1", "other.txt", "a"));
    assertThat(mark).startsWith("1 files, ");
    assertThat(mark(one, Map.of("db/migration/V1__a.sql", "select 1", "other.txt", "b")))
        .isEqualTo(mark);
    assertThat(mark(one, Map.of("db/migration/V1__a.sql", "select 2"))).isNotEqualTo(mark);
    assertThat(mark(one, Map.of("db/migration/V2__a.sql", "select 1"))).isNotEqualTo(mark);
  }

  /** The connection of the tests' superuser, in a transaction that is undone. */
  @Test
  void onlyADatabaseLeftByTheSameFilesIsSpared() throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement()) {
      connection.setAutoCommit(false);
      statement.execute("create schema apart; set local search_path to apart");
      assertThat(Migrations.areDone(connection, "2 files, 12")).isFalse();
      statement.execute("create table flyway_schema_history ()");
      assertThat(Migrations.areDone(connection, "2 files, 12")).isFalse();
      statement.execute("comment on table flyway_schema_history is '2 files, 12'");
      assertThat(Migrations.areDone(connection, "2 files, 12")).isTrue();
      assertThat(Migrations.areDone(connection, "2 files, 13")).isFalse();
      connection.rollback();
    }
  }

  private static String mark(Path jar, Map<String, String> files) throws IOException {
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(jar))) {
      for (Map.Entry<String, String> file : files.entrySet()) {
        zip.putNextEntry(new ZipEntry(file.getKey()));
        zip.write(file.getValue().getBytes(StandardCharsets.UTF_8));
        zip.closeEntry();
      }
    }
    return Migrations.mark(jar);
  }
}
