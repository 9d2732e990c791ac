package trestle.server;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import trestle.server.backup.Catalog;

/**
 * What the running server says of itself and of the application's user, asked over that user's own
 * connection: a setting may differ by user and database, and a file may say what does not hold.
 *
 * @param versionNumber as PostgreSQL counts: 170011 is 17.11
 * @param powerfulRoles superusers and roles past row-level security that the user is or may become
 * @param ownedTables tables the user owns, or may own by becoming their owner
 * @param truncatableTables tables the user may empty past every row's protection
 * @param openTables tables with operator data where row-level security is not forced
 */
record DatabaseFacts(
    int versionNumber,
    String fsync,
    String fullPageWrites,
    String synchronousCommit,
    String user,
    List<String> powerfulRoles,
    List<String> ownedTables,
    List<String> truncatableTables,
    List<String> openTables) {

  private static final String TABLES =
      """
      SELECT c.relname FROM pg_class c
      WHERE c.relkind IN ('r', 'p') AND c.relnamespace = current_schema()::regnamespace
      """;

  static DatabaseFacts ask(Connection connection) throws SQLException {
    return new DatabaseFacts(
        Integer.parseInt(one(connection, "SHOW server_version_num")),
        one(connection, "SHOW fsync"),
        one(connection, "SHOW full_page_writes"),
        one(connection, "SHOW synchronous_commit"),
        one(connection, "SELECT current_user"),
        Catalog.list(
            connection,
            """
            SELECT rolname FROM pg_roles
            WHERE (rolsuper OR rolbypassrls) AND pg_has_role(current_user, oid, 'MEMBER')
            ORDER BY rolname <> current_user, rolname
            """),
        Catalog.list(connection, TABLES + "AND pg_has_role(current_user, c.relowner, 'MEMBER')"),
        Catalog.list(
            connection, TABLES + "AND has_table_privilege(current_user, c.oid, 'TRUNCATE')"),
        // A session is looked up before anybody knows for which operator, so it can't have walls.
        Catalog.list(
            connection,
            TABLES
                + """
                AND NOT (c.relrowsecurity AND c.relforcerowsecurity) AND c.relname <> 'session'
                AND EXISTS (SELECT FROM pg_attribute a
                  WHERE a.attrelid = c.oid AND a.attname = 'operator_id' AND NOT a.attisdropped)
                """));
  }

  private static String one(Connection connection, String query) throws SQLException {
    return Catalog.list(connection, query).get(0);
  }
}
