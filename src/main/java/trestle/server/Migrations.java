package trestle.server;

import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.CodeSource;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.FlywayException;
import org.flywaydb.core.api.MigrationInfo;
import org.flywaydb.core.api.MigrationInfoService;
import org.flywaydb.core.api.MigrationVersion;
import org.flywaydb.core.api.configuration.FluentConfiguration;

/**
 * Which migrations this build carries, and whether a database has had them all. Reading and
 * comparing them anew takes a tenth of a start; a database that says it was left by the very same
 * files is spared that.
 */
final class Migrations {
  /** Of a database whose migrations came from loose files. */
  static final String UNMARKED = "unknown";

  private static final String FOLDER = "db/migration/";

  /** Of the names and contents of all files; empty when they don't lie in one jar. */
  static Optional<String> mark() {
    CodeSource source = Migrations.class.getProtectionDomain().getCodeSource();
    if (source == null) {
      return Optional.empty();
    }
    try {
      Path jar = Path.of(source.getLocation().toURI());
      return Files.isRegularFile(jar) ? Optional.of(mark(jar)) : Optional.empty();
    } catch (URISyntaxException | IOException e) {
      return Optional.empty();
    }
  }

  static String mark(Path jar) throws IOException {
    try (ZipFile zip = new ZipFile(jar.toFile())) {
      String files =
          zip.stream()
              .filter(entry -> entry.getName().startsWith(FOLDER) && !entry.isDirectory())
              .map(Migrations::line)
              .sorted()
              .collect(Collectors.joining("\n"));
      CRC32 whole = new CRC32();
      whole.update(files.getBytes(java.nio.charset.StandardCharsets.UTF_8));
      return "%d files, %08x".formatted(files.lines().count(), whole.getValue());
    }
  }

  /**
   * Brings a database up to date, as its owner, and marks it with what did.
   *
   * @param users the two of the installation
   * @throws FlywayException when a migration failed, or one that was run has been changed since
   */
  static void run(String url, Users users, String mark) {
    configured(url, users, mark).load().migrate();
  }

  /**
   * As {@link #run}, for another schema than the usual one and up to an earlier version.
   *
   * @param version the last migration to be run, or null: all of them
   */
  static void run(String url, Users users, String mark, String schema, String version) {
    FluentConfiguration flyway = configured(url, users, mark).defaultSchema(schema);
    if (version != null) {
      flyway.target(MigrationVersion.fromVersion(version));
    }
    flyway.load().migrate();
  }

  private static FluentConfiguration configured(String url, Users users, String mark) {
    return Flyway.configure(Thread.currentThread().getContextClassLoader())
        .dataSource(url, users.owner(), users.ownerPassword())
        .locations("classpath:" + FOLDER)
        .placeholders(Map.of("appUser", users.app(), "migrations", mark));
  }

  /** The version of the newest migration that this build carries. */
  static String newest(String url, Users users) {
    return Arrays.stream(configured(url, users, UNMARKED).load().info().all())
        .map(MigrationInfo::getVersion)
        .filter(Objects::nonNull)
        .max(Comparator.naturalOrder())
        .orElseThrow()
        .getVersion();
  }

  /** The version of a database with tables that are about to be changed; empty for any other. */
  static Optional<String> aboutToChange(String url, Users users) {
    MigrationInfoService info = configured(url, users, UNMARKED).load().info();
    return info.current() == null || info.pending().length == 0
        ? Optional.empty()
        : Optional.of(info.current().getVersion().getVersion());
  }

  /** Who owns the tables, and who uses them. */
  record Users(String owner, String ownerPassword, String app) {}

  private static String line(ZipEntry entry) {
    return "%s %08x %d".formatted(entry.getName(), entry.getCrc(), entry.getSize());
  }

  /**
   * Whether the last migration of this database was by exactly these files, and came to its end.
   */
  static boolean areDone(Connection connection, String mark) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT obj_description(to_regclass('flyway_schema_history'), 'pg_class')")) {
      return row.next() && mark.equals(row.getString(1));
    }
  }

  private Migrations() {}
}
