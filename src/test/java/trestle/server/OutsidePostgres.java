package trestle.server;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Map;

/**
 * A PostgreSQL that the packaged program did not bring, set up with the very statements of
 * docs/operations.md. Several {@link AppProcess}es may share it.
 */
public final class OutsidePostgres implements AutoCloseable {
  private final EmbeddedPostgres server;

  private OutsidePostgres(EmbeddedPostgres server) {
    this.server = server;
  }

  /** One that keeps what it acknowledged, as the program demands. */
  public static OutsidePostgres durable() {
    return start("on");
  }

  /** One that would lie at a power cut. */
  static OutsidePostgres forgetful() {
    return start("off");
  }

  private static OutsidePostgres start(String durability) {
    try {
      OutsidePostgres outside =
          new OutsidePostgres(
              EmbeddedPostgres.builder()
                  .setServerConfig("fsync", durability)
                  .setServerConfig("full_page_writes", durability)
                  .setServerConfig("synchronous_commit", durability)
                  .start());
      for (String statement : documentedStatements()) {
        outside.execute("postgres", statement);
      }
      return outside;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String[] documentedStatements() throws IOException {
    String document = Files.readString(Path.of("docs", "operations.md"));
    int start = document.indexOf("```sql\n") + "```sql\n".length();
    return document.substring(start, document.indexOf("```", start)).strip().split(";\\s*");
  }

  /** The settings that lead the program here, the same keys for every process included. */
  public Map<String, String> settings() {
    return Map.of(
        "QUARKUS_DATASOURCE_JDBC_URL", url(),
        "QUARKUS_DATASOURCE_USERNAME", "trestle_app",
        "QUARKUS_DATASOURCE_PASSWORD", "the application's password",
        "TRESTLE_OWNER_USERNAME", "trestle_owner",
        "TRESTLE_OWNER_PASSWORD", "the owner's password",
        "TRESTLE_SESSION_KEY", "session-key-of-the-tests-0123456789",
        "TRESTLE_CSRF_KEY", "csrf-key-of-the-tests-0123456789abc",
        "TRESTLE_LEDGER_KEY", "ledger-key-of-the-tests-0123456789");
  }

  public String url() {
    return "jdbc:postgresql://127.0.0.1:" + server.getPort() + "/trestle";
  }

  /** As the superuser, in the program's database. */
  public Connection asSuperuser() throws SQLException {
    return server.getDatabase("postgres", "trestle").getConnection();
  }

  void execute(String sql) {
    execute("trestle", sql);
  }

  private void execute(String database, String sql) {
    try (Connection connection = server.getDatabase("postgres", database).getConnection();
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    } catch (SQLException e) {
      throw new IllegalStateException(sql, e);
    }
  }

  @Override
  public void close() {
    try {
      server.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
