package trestle.server;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import trestle.server.backup.BackupFile;
import trestle.server.backup.BackupWriter;
import trestle.server.backup.Restore;

/** Another database on the tests' server, with nothing in it, for what is restored. */
public final class SpareDatabase implements AutoCloseable {
  private final String name;

  private SpareDatabase(String name) {
    this.name = name;
  }

  public static SpareDatabase empty() throws SQLException {
    String name = "spare_" + UUID.randomUUID().toString().replace("-", "");
    try (Connection connection = TestDatabase.asSuperuser()) {
      execute(connection, "create database " + name + " owner " + TestDatabase.OWNER);
    }
    return new SpareDatabase(name);
  }

  String url() {
    return TestDatabase.url().replaceAll("/trestle$", "/" + name);
  }

  public Connection asOwner() throws SQLException {
    return DriverManager.getConnection(url(), TestDatabase.OWNER, TestDatabase.PASSWORD);
  }

  public Connection asApp() throws SQLException {
    return DriverManager.getConnection(url(), TestDatabase.APP, TestDatabase.PASSWORD);
  }

  public Connection asSuperuser() throws SQLException {
    return DriverManager.getConnection(url(), "postgres", "");
  }

  /** Tables up to a version, or (null) to the newest, as a start makes them. */
  public void migrate(String version) {
    migrate("public", version);
  }

  private void migrate(String schema, String version) {
    Migrations.run(url(), users(), Migrations.UNMARKED, schema, version);
  }

  static Migrations.Users users() {
    return new Migrations.Users(TestDatabase.OWNER, TestDatabase.PASSWORD, TestDatabase.APP);
  }

  public Restore.Report restore(Path file, boolean replace) throws IOException, SQLException {
    try (Connection connection = asOwner();
        BackupFile opened = BackupFile.open(file)) {
      return restore(connection).whole(opened, replace);
    }
  }

  public Restore.Report restoreOperator(Path file, String operator)
      throws IOException, SQLException {
    try (Connection connection = asOwner();
        BackupFile opened = BackupFile.open(file)) {
      return restore(connection).operator(opened, operator);
    }
  }

  private Restore restore(Connection connection) {
    return new Restore(connection, this::migrate, Migrations.newest(url(), users()));
  }

  public BackupWriter.Written backUp(Path file, String operator) throws Exception {
    try (Connection connection = asOwner()) {
      return new BackupWriter(connection, "of the tests", new TheClock().instant())
          .write(file, Optional.ofNullable(operator));
    }
  }

  /** A digest of all rows of each table, past the walls: of one operator, or (null) of all. */
  public static Map<String, String> contents(Connection superuser, UUID operator)
      throws SQLException {
    Map<String, String> contents = new TreeMap<>();
    String tables =
        "select table_name from information_schema.columns where table_schema = 'public'"
            + " and table_name not in ('filed_row', 'session', 'sign_in_brake', 'flyway_schema_history')"
            + (operator == null ? "" : " and column_name = 'operator_id'")
            + " group by 1";
    for (String table : list(superuser, tables)) {
      String where = operator == null ? "" : " where operator_id = '" + operator + "'";
      contents.put(
          table,
          list(
                  superuser,
                  "select count(*) || ' ' || coalesce(md5(string_agg(t::text, '|' order by t::text)), '')"
                      + (" from " + table + " t" + where))
              .get(0));
    }
    return contents;
  }

  /** What was made in the schema, and for whom: columns, keys, triggers, policies, rights. */
  public static List<String> shape(Connection connection) throws SQLException {
    return list(
        connection,
        """
        select 'column ' || table_name || '.' || column_name || ' ' || data_type || ' '
            || is_nullable || ' ' || coalesce(column_default, '')
          from information_schema.columns where table_schema = 'public'
        union all select 'constraint ' || conrelid::regclass || ' ' || conname || ' '
            || pg_get_constraintdef(oid)
          from pg_constraint where connamespace = 'public'::regnamespace
        union all select 'index ' || indexdef from pg_indexes where schemaname = 'public'
        union all select 'trigger ' || tgrelid::regclass || ' ' || tgenabled::text || ' '
            || pg_get_triggerdef(oid) from pg_trigger where not tgisinternal
        union all select 'policy ' || tablename || ' ' || policyname || ' ' || cmd || ' '
            || coalesce(qual, '') || ' ' || coalesce(with_check, '')
          from pg_policies where schemaname = 'public'
        union all select 'table ' || relname || ' ' || relrowsecurity || relforcerowsecurity || ' '
            || relowner::regrole || ' ' || coalesce(relacl::text, '')
          from pg_class where relkind = 'r' and relnamespace = 'public'::regnamespace
        union all select 'routine ' || oid::regprocedure || ' ' || proowner::regrole || ' '
            || coalesce(proacl::text, '') || prosrc
          from pg_proc where pronamespace = 'public'::regnamespace
        union all select 'schema ' || nspname from pg_namespace where nspname not like 'pg_%'
        order by 1
        """);
  }

  public static List<String> list(Connection connection, String query) throws SQLException {
    List<String> answers = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        var rows = statement.executeQuery(query)) {
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

  @Override
  public void close() throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser()) {
      execute(connection, "drop database " + name + " with (force)");
    }
  }
}
