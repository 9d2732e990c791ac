package trestle.server;

import java.io.Closeable;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.config.Config;

/**
 * The installation's database as its owner reaches it, for work that needs no application: outside,
 * or built in and running for a started program, or else started for this alone.
 *
 * @param builtIn the server to stop afterwards, or null
 * @param directory of the built-in database, or null
 */
record Reach(String url, Migrations.Users users, BuiltInPostgres builtIn, Path directory)
    implements Closeable {

  /** Whether a program is running on the built-in database. */
  boolean isShared() {
    return directory != null && builtIn == null;
  }

  static Reach of(Config config) {
    return config.getOptionalValue(DatabaseChoice.URL, String.class).isPresent()
        ? outside(config)
        : inside(DatabaseChoice.directory(config), config);
  }

  private static Reach inside(Path path, Config config) {
    Optional<DataDirectory.Running> running = DataDirectory.running(path);
    if (running.isEmpty()) {
      DatabaseChoice started = DatabaseChoice.make(config);
      Runtime.getRuntime().addShutdownHook(new Thread(started.builtIn()::stop, "stop-postgres"));
      return new Reach(
          started.settings().get(DatabaseChoice.URL),
          started.users(config),
          started.builtIn(),
          path);
    }
    String password = running.get().ownerPassword();
    return new Reach(
        DatabaseUsers.url(running.get().port(), DatabaseUsers.DATABASE),
        new Migrations.Users(DatabaseUsers.OWNER, password, DatabaseUsers.APP),
        null,
        path);
  }

  /** As the running application knows it: both kinds of database have left the same settings. */
  static Reach ofTheApplication(Config config) {
    return outside(config);
  }

  private static Reach outside(Config config) {
    DatabaseChoice.checkOutsideSettings(config);
    return new Reach(
        config.getValue(DatabaseChoice.URL, String.class),
        DatabaseChoice.outsideUsers(config),
        null,
        null);
  }

  Connection connect() throws SQLException {
    return DatabaseUsers.connect(url, users.owner(), users.ownerPassword());
  }

  /** Sessions of the application, which a restore would pull the tables away from. */
  List<String> sessionsOfTheApplication() throws SQLException {
    List<String> sessions = new ArrayList<>();
    try (Connection connection = connect();
        var statement =
            connection.prepareStatement(
                "select pid from pg_stat_activity where datname = current_database()"
                    + " and usename = ?")) {
      statement.setString(1, users.app());
      var rows = statement.executeQuery();
      while (rows.next()) {
        sessions.add(rows.getString(1));
      }
    }
    return sessions;
  }

  static boolean isMade(Path directory) {
    return Files.isDirectory(directory.resolve("postgres"));
  }

  @Override
  public void close() {
    if (builtIn != null) {
      builtIn.stop();
    }
  }
}
