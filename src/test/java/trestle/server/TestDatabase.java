package trestle.server;

import io.quarkus.test.common.QuarkusTestResourceLifecycleManager;
import io.quarkus.test.common.TestResourceScope;
import io.quarkus.test.common.WithTestResource;
import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Map;

/**
 * The database of all {@code @QuarkusTest} classes: one real PostgreSQL for the whole run, with the
 * two users of an installation. It may forget at a power cut (fsync off), nothing else differs; for
 * a benchmark not even that, with -Dtrestle.test.durable=true.
 */
@WithTestResource(value = TestDatabase.class, scope = TestResourceScope.GLOBAL)
public class TestDatabase implements QuarkusTestResourceLifecycleManager {

  public static final String OWNER = "trestle_owner";
  public static final String APP = "trestle_app";
  static final String PASSWORD = "only-for-tests";
  private static final String KEY = "only-for-tests-only-for-tests-only-for-tests";

  private static final String DURABLE = "trestle.test.durable";

  /** Shared through the JVM, since each of Quarkus' class loaders has a class of its own. */
  private static final String PORT = "trestle.test.database.port";

  /** The database's JDBC URL, without a user. */
  public static String url() {
    return "jdbc:postgresql://127.0.0.1:" + port() + "/trestle";
  }

  /** A connection as the application's user: row-level security applies. */
  public static Connection asApp() throws SQLException {
    return DriverManager.getConnection(url(), APP, PASSWORD);
  }

  /** A connection as the owner of the tables, who runs the migrations. */
  public static Connection asOwner() throws SQLException {
    return DriverManager.getConnection(url(), OWNER, PASSWORD);
  }

  /** A connection as the superuser: past row-level security, for looking at what was stored. */
  public static Connection asSuperuser() throws SQLException {
    return DriverManager.getConnection(url(), "postgres", "");
  }

  @Override
  public Map<String, String> start() {
    return Map.ofEntries(
        Map.entry("quarkus.datasource.jdbc.url", url()),
        Map.entry("quarkus.datasource.username", APP),
        Map.entry("quarkus.datasource.password", PASSWORD),
        Map.entry("trestle.owner.username", OWNER),
        Map.entry("trestle.owner.password", PASSWORD),
        Map.entry("trestle.session.key", KEY),
        Map.entry("trestle.csrf.key", KEY),
        Map.entry("trestle.ledger.key", KEY),
        Map.entry("trestle.data-dir", temporaryDirectory().toString()),
        Map.entry("trestle.demo", "false"));
  }

  @Override
  public void stop() {
    // The server lives as long as the JVM, since Quarkus restarts when a test profile changes.
  }

  private static int port() {
    synchronized (System.getProperties()) {
      if (System.getProperty(PORT) == null) {
        System.setProperty(PORT, Integer.toString(startServer().getPort()));
      }
      return Integer.getInteger(PORT);
    }
  }

  private static EmbeddedPostgres startServer() {
    try {
      var builder = EmbeddedPostgres.builder().setServerConfig("max_connections", "100");
      if (Boolean.getBoolean(DURABLE)) {
        builder.setServerConfig("fsync", "on").setServerConfig("synchronous_commit", "on");
      }
      EmbeddedPostgres started = builder.start();
      createDatabase(started);
      Migrations.run(
          "jdbc:postgresql://127.0.0.1:" + started.getPort() + "/trestle",
          new Migrations.Users(OWNER, PASSWORD, APP),
          Migrations.UNMARKED);
      return started;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void createDatabase(EmbeddedPostgres started) throws SQLException {
    try (Connection connection = started.getPostgresDatabase().getConnection();
        var statement = connection.createStatement()) {
      statement.execute("CREATE ROLE " + OWNER + " LOGIN PASSWORD '" + PASSWORD + "'");
      statement.execute(
          "CREATE ROLE " + APP + " LOGIN NOSUPERUSER NOBYPASSRLS PASSWORD '" + PASSWORD + "'");
      statement.execute("CREATE DATABASE trestle OWNER " + OWNER);
    }
  }

  private static Path temporaryDirectory() {
    try {
      Path directory = Files.createTempDirectory("trestle-test");
      directory.toFile().deleteOnExit();
      return directory;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
