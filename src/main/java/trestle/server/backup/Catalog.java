package trestle.server.backup;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** What the database says of the tables in the schema that a connection looks at first. */
public final class Catalog {
  /**
   * Patterns, the migrations' own book, and what ends by itself: everybody signs in again after a
   * restore, and a backup opens nobody's session.
   */
  private static final Set<String> NOT_KEPT =
      Set.of("filed_row", "flyway_schema_history", "session", "sign_in_brake");

  private Catalog() {}

  /**
   * @param ofOperator its rows belong to one operator each, and stand behind the walls
   */
  record Table(String name, List<String> columns, boolean ofOperator) {
    static final String OPERATORS = "operator";

    /** The column that says whose a row is, or null. */
    String operatorColumn() {
      return name.equals(OPERATORS) ? "id" : ofOperator ? "operator_id" : null;
    }

    String columnList() {
      return String.join(", ", columns.stream().map(Catalog::quoted).toList());
    }
  }

  static List<Table> tables(Connection connection) throws SQLException {
    List<Table> tables = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                """
                select c.relname, array_agg(a.attname::text order by a.attnum),
                  bool_or(a.attname = 'operator_id') or c.relname = 'operator'
                from pg_class c join pg_attribute a on a.attrelid = c.oid
                where c.relkind = 'r' and c.relnamespace = current_schema()::regnamespace
                  and a.attnum > 0 and not a.attisdropped and a.attgenerated = ''
                group by c.relname order by c.relname
                """)) {
      while (rows.next()) {
        if (!NOT_KEPT.contains(rows.getString(1))) {
          List<String> columns = List.of((String[]) rows.getArray(2).getArray());
          tables.add(new Table(rows.getString(1), columns, rows.getBoolean(3)));
        }
      }
    }
    return tables;
  }

  /** The newest migration this database had, as in its file's name: 028. */
  static String schemaVersion(Connection connection) throws SQLException {
    return list(
            connection,
            "select version from flyway_schema_history where success and version is not null"
                + " order by installed_rank desc limit 1")
        .stream()
        .findFirst()
        .orElseThrow(() -> new BackupRefused("This database has no tables of Trestle's yet."));
  }

  /** The first column of what a query answers. */
  public static List<String> list(Connection connection, String query) throws SQLException {
    List<String> answers = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(query)) {
      while (rows.next()) {
        answers.add(rows.getString(1));
      }
    }
    return answers;
  }

  static void execute(Connection connection, String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  /** Each on its own: a restore alters tables by the hundred. */
  static void execute(Connection connection, List<String> statements) throws SQLException {
    for (String sql : statements) {
      execute(connection, sql);
    }
  }

  static String quoted(String identifier) {
    return '"' + identifier.replace("\"", "\"\"") + '"';
  }
}
