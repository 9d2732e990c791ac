package trestle.server;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Properties;
import org.postgresql.Driver;

/**
 * The two users of the built-in database and the database itself: made when missing, and given the
 * passwords of the data directory at every start.
 */
final class DatabaseUsers {
  static final String DATABASE = "trestle";
  static final String OWNER = "trestle_owner";
  static final String APP = "trestle_app";

  /**
   * How often a password is hashed when somebody signs in at the database. Thousands of times makes
   * guessing slow where people choose their passwords; these are 256 random bits, which nobody
   * guesses at any speed, and every connection of a start would wait for it.
   */
  static final String SCRAM_ITERATIONS = "16";

  static void prepare(
      int port, String superuserPassword, String ownerPassword, String appPassword) {
    try (Connection connection =
        connect(url(port, "postgres"), BuiltInPostgres.SUPERUSER, superuserPassword)) {
      execute(connection, "SET scram_iterations = " + SCRAM_ITERATIONS);
      makeUser(connection, OWNER, ownerPassword);
      makeUser(connection, APP, appPassword);
      makeDatabase(connection);
    } catch (SQLException e) {
      throw new StartRefused(
          "The built-in PostgreSQL refuses the superuser's password in secrets/postgres-password (%s). Put the data directory's own file back."
              .formatted(e.getMessage()));
    }
  }

  static String url(int port, String database) {
    return "jdbc:postgresql://127.0.0.1:" + port + "/" + database;
  }

  /** By the driver itself: the service list may not be read yet when the program begins. */
  static Connection connect(String url, String user, String password) throws SQLException {
    Properties properties = new Properties();
    properties.setProperty("user", user);
    properties.setProperty("password", password);
    properties.setProperty("loginTimeout", "20");
    Connection connection = new Driver().connect(url, properties);
    if (connection == null) {
      throw new SQLException("not a PostgreSQL address: it must begin with jdbc:postgresql://");
    }
    return connection;
  }

  private static void makeUser(Connection connection, String name, String password)
      throws SQLException {
    if (!exists(connection, "SELECT 1 FROM pg_roles WHERE rolname = ?", name)) {
      execute(connection, "CREATE ROLE " + name);
    }
    execute(
        connection,
        "ALTER ROLE %s LOGIN NOSUPERUSER NOBYPASSRLS NOCREATEDB NOCREATEROLE PASSWORD '%s'"
            .formatted(name, password));
  }

  private static void makeDatabase(Connection connection) throws SQLException {
    if (!exists(connection, "SELECT 1 FROM pg_database WHERE datname = ?", DATABASE)) {
      execute(connection, "CREATE DATABASE " + DATABASE + " OWNER " + OWNER);
    }
    execute(connection, "REVOKE ALL ON DATABASE " + DATABASE + " FROM PUBLIC");
    execute(connection, "GRANT CONNECT, TEMPORARY ON DATABASE " + DATABASE + " TO " + APP);
  }

  private static boolean exists(Connection connection, String query, String name)
      throws SQLException {
    try (PreparedStatement statement = connection.prepareStatement(query)) {
      statement.setString(1, name);
      return statement.executeQuery().next();
    }
  }

  private static void execute(Connection connection, String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  private DatabaseUsers() {}
}
