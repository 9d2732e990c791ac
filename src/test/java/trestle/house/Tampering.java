package trestle.house;

import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.ledger.MerkleFrontier;
import trestle.server.TestDatabase;

/**
 * Somebody with the superuser's password who changes an operator's filed rows: triggers and foreign
 * keys sleep for them. Each change can be taken back.
 */
final class Tampering implements AutoCloseable {
  private static final String FILED =
      "select table_name from information_schema.columns where table_schema = 'public'"
          + " and column_name = 'ledger_seq' and table_name <> 'filed_row' order by 1";

  /** What to write instead, tried in turn until a constraint of the table lets one pass. */
  private static final Map<String, List<String>> OTHERS =
      Map.of(
          "text",
          List.of(
              "coalesce(%1$s, '') || 'x'",
              "translate(%1$s, 'AZ', 'BY')",
              "reverse(%1$s)",
              "(select o.%1$s from %2$s o where o.%1$s is distinct from t.%1$s limit 1)",
              "'x'",
              "''",
              "null"),
          "uuid",
          List.of("gen_random_uuid()"),
          "boolean",
          List.of("not coalesce(%1$s, false)", "null"),
          "number",
          List.of("coalesce(%1$s, 0) + 1", "%1$s - 1", "null"),
          "date",
          List.of("coalesce(%1$s, current_date) + 1", "%1$s - 1", "null"),
          "timestamptz",
          List.of(
              "coalesce(%1$s, now()) + interval '1 microsecond'",
              "coalesce(%1$s, now()) - interval '1 microsecond'", "null"),
          "jsonb",
          List.of("coalesce(%1$s, '{}') || '{\"x\": \"1\"}'", "%1$s || '[\"x\"]'", "null"),
          "array",
          List.of(
              "%1$s || %1$s", "array_append(%1$s, 'x')", "array_append(%1$s, gen_random_uuid())"),
          "bytea",
          List.of("set_byte(%1$s, 0, get_byte(%1$s, 0) # 1)"));

  private final UUID operator;
  private final Connection connection;

  Tampering(UUID operator) throws SQLException {
    this.operator = operator;
    connection = TestDatabase.asSuperuser();
    run("set session_replication_role = 'replica'");
  }

  /** What says no to some values, of every filed table. For a database that is thrown away. */
  void dropChecks() throws SQLException {
    for (String drop :
        asked(
            "select format('alter table %s drop constraint %I', conrelid::regclass, conname)"
                + " from pg_constraint where contype = 'c'"
                + " and connamespace = 'public'::regnamespace")) {
      run(drop);
    }
  }

  record Column(String table, String name, String type) {}

  /** Filed tables that hold rows of the operator. */
  List<String> tables() throws SQLException {
    List<String> tables = new ArrayList<>();
    for (String table : asked(FILED)) {
      if (!asked("select 1 from " + table + " where operator_id = '" + operator + "' limit 1")
          .isEmpty()) {
        tables.add(table);
      }
    }
    return tables;
  }

  List<Column> columns(String table) throws SQLException {
    List<Column> columns = new ArrayList<>();
    try (var statement = connection.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "select column_name, data_type from information_schema.columns"
                    + " where table_schema = 'public' and is_generated = 'NEVER'"
                    + " and table_name = '"
                    + table
                    + "' order by ordinal_position")) {
      while (rows.next()) {
        columns.add(new Column(table, rows.getString(1), type(rows.getString(2))));
      }
    }
    return columns;
  }

  private static String type(String sql) {
    return switch (sql) {
      case "integer", "bigint", "numeric", "smallint" -> "number";
      case "timestamp with time zone" -> "timestamptz";
      case "ARRAY" -> "array";
      default -> sql;
    };
  }

  /**
   * Changes a column of the operator's newest row of its table.
   *
   * @return how to take it back; empty where every other value breaks a constraint
   */
  Optional<Undo> change(Column column) throws SQLException {
    String row = newest(column.table());
    for (String other : OTHERS.get(column.type())) {
      String value = other.formatted('"' + column.name() + '"', column.table());
      Optional<Undo> changed = tried(column.table(), row, '"' + column.name() + '"', value);
      if (changed.isPresent()) {
        return changed;
      }
    }
    return Optional.empty();
  }

  /** Changes one column of one row, where that makes it another value. */
  Optional<Undo> tried(String table, String ctid, String column, String value) throws SQLException {
    Undo undo = saved(table, "t.ctid = '" + ctid + "'");
    try {
      List<String> now =
          asked(
              "update %1$s t set %2$s = %3$s where t.ctid = '%4$s' and (%3$s) is distinct from t.%2$s returning ctid"
                  .formatted(table, column, value, ctid));
      if (now.isEmpty()) {
        return Optional.empty();
      }
      undo.added = List.of(now.get(0));
      return Optional.of(undo);
    } catch (SQLException refused) {
      return Optional.empty();
    }
  }

  String newest(String table) throws SQLException {
    String order = table.equals("ledger_entry") ? "seq" : "ledger_seq";
    return asked(
            "select ctid from %s where operator_id = '%s' order by %s desc limit 1"
                .formatted(table, operator, order))
        .get(0);
  }

  Undo remove(String table, String where) throws SQLException {
    Undo undo = saved(table, where);
    run("delete from %s t where operator_id = '%s' and %s".formatted(table, operator, where));
    return undo;
  }

  /** Saves rows so that they can be put back; what is done to them comes next. */
  private Undo saved(String table, String where) throws SQLException {
    String copy = "saved_" + UUID.randomUUID().toString().replace('-', '_');
    run(
        "create temp table %s as select * from %s t where operator_id = '%s' and %s"
            .formatted(copy, table, operator, where));
    return new Undo(table, copy);
  }

  /** Takes one change back. */
  final class Undo implements AutoCloseable {
    private final String table;
    private final String copy;
    private List<String> added = List.of();

    Undo(String table, String copy) {
      this.table = table;
      this.copy = copy;
    }

    @Override
    public void close() throws SQLException {
      for (String ctid : added) {
        run("delete from %s where ctid = '%s'".formatted(table, ctid));
      }
      String columns = columns(table).stream().map(Column::name).collect(Collectors.joining(", "));
      run("insert into %1$s (%2$s) select %2$s from %3$s".formatted(table, columns, copy));
      run("drop table " + copy);
    }
  }

  void run(String sql) throws SQLException {
    try (var statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  List<String> asked(String query) throws SQLException {
    try (var statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(query)) {
      List<String> answers = new ArrayList<>();
      while (rows.next()) {
        answers.add(rows.getString(1));
      }
      return answers;
    }
  }

  /**
   * Computes leaves, kept subtrees and head anew from the lines' texts, as one with the code can.
   */
  void computeAnew() throws SQLException {
    MerkleFrontier edge = MerkleFrontier.EMPTY;
    List<String[]> subtrees = new ArrayList<>();
    for (String json :
        asked(
            "select json from ledger_entry where operator_id = '%s' order by seq"
                .formatted(operator))) {
      byte[] leaf = MerkleFrontier.leaf(json.getBytes(StandardCharsets.UTF_8));
      set(
          "update ledger_entry set leaf = ? where operator_id = ? and seq = " + (edge.size() + 1),
          leaf);
      edge =
          edge.append(
              leaf,
              (level, place, root) ->
                  subtrees.add(
                      new String[] {
                        "" + level, "" + place, java.util.HexFormat.of().formatHex(root)
                      }));
    }
    run("delete from ledger_subtree where operator_id = '" + operator + "'");
    for (String[] each : subtrees) {
      if (Integer.parseInt(each[0]) >= 8) {
        run(
            "insert into ledger_subtree values ('%s', %s, %s, '\\x%s')"
                .formatted(operator, each[0], each[1], each[2]));
      }
    }
    set("update ledger_head set root = ? where operator_id = ?", edge.root());
    set("update ledger_head set frontier = ? where operator_id = ?", edge.bytes());
    run(
        "update ledger_head set size = %d where operator_id = '%s'"
            .formatted(edge.size(), operator));
  }

  private void set(String sql, byte[] value) throws SQLException {
    try (var statement = connection.prepareStatement(sql)) {
      statement.setBytes(1, value);
      statement.setObject(2, operator);
      statement.execute();
    }
  }

  @Override
  public void close() throws SQLException {
    connection.close();
  }
}
