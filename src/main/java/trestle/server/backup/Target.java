package trestle.server.backup;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.server.backup.Catalog.Table;

/** The tables in use, and the one moment in which a restore touches them. */
final class Target {
  /** What the owner has in a schema, as it is named in DROP and ALTER. */
  private static final String TABLES =
      """
      select 'table ' || c.oid::regclass from pg_class c
      where c.relkind = 'r' and c.relnamespace = '%1$s'::regnamespace
        and c.relowner = current_user::regrole
      """;

  private static final String ROUTINES =
      """
      select 'routine ' || p.oid::regprocedure from pg_proc p
      where p.pronamespace = '%1$s'::regnamespace and p.proowner = current_user::regrole
        and not exists (select from pg_depend d
          where d.classid = 'pg_proc'::regclass and d.objid = p.oid and d.deptype = 'e')
      """;

  private final Connection connection;
  private final String schema;

  Target(Connection connection) throws SQLException {
    this.connection = connection;
    this.schema = Catalog.list(connection, "select quote_ident(current_schema())").get(0);
  }

  String schema() {
    return schema;
  }

  boolean hasTables() throws SQLException {
    return yes("select to_regclass('%s.person') is not null".formatted(schema));
  }

  String schemaVersion() throws SQLException {
    return Catalog.schemaVersion(connection);
  }

  boolean isEmpty() throws SQLException {
    return !hasTables() || !yes("select exists (select from %s.person)".formatted(schema));
  }

  boolean holds(UUID operator) throws SQLException {
    connection.setAutoCommit(false);
    try {
      speakForInstallation();
      return yes(
          "select exists (select from %s.operator where id = '%s')".formatted(schema, operator));
    } finally {
      connection.rollback();
      connection.setAutoCommit(true);
    }
  }

  /** What is here goes and the other schema's tables come, or neither. */
  void replaceBy(String other) throws SQLException {
    connection.setAutoCommit(false);
    // Names come with their schema as long as it is not searched.
    Catalog.execute(connection, "set local search_path to pg_catalog");
    for (String kind : List.of(TABLES, ROUTINES)) {
      for (String thing : Catalog.list(connection, kind.formatted(schema))) {
        Catalog.execute(connection, "drop %s cascade".formatted(thing));
      }
    }
    for (String kind : List.of(TABLES, ROUTINES)) {
      for (String thing : Catalog.list(connection, kind.formatted(other))) {
        Catalog.execute(connection, "alter %s set schema %s".formatted(thing, schema));
      }
    }
    // Refused if anything were left behind in there.
    Catalog.execute(connection, "drop schema %s restrict".formatted(other));
    connection.commit();
    connection.setAutoCommit(true);
  }

  /** Copies one operator's rows, and the people among them who are not known here. */
  List<String> takeIn(UUID operator, String other) throws SQLException {
    connection.setAutoCommit(false);
    Catalog.execute(connection, "set local search_path to " + other);
    List<Table> tables = inOrderOfReference(Catalog.tables(connection));
    speakForInstallation();
    Catalog.execute(
        connection, "select set_config('trestle.operator', '%s', true)".formatted(operator));
    List<String> notes = takeInPeople(People.namedBy(connection, operator), other);
    List<Table> operators =
        tables.stream().filter(table -> table.operatorColumn() != null).toList();
    // What triggers would keep comes along.
    each(operators, "disable trigger user");
    for (Table table : operators) {
      takeIn(table, operator, other);
    }
    Catalog.execute(connection, "set constraints all immediate");
    each(operators, "enable trigger user");
    connection.commit();
    connection.setAutoCommit(true);
    return notes;
  }

  private void takeIn(Table table, UUID operator, String other) throws SQLException {
    String name = Catalog.quoted(table.name());
    Catalog.execute(
        connection,
        "insert into %1$s.%2$s (%3$s) select %3$s from %4$s.%2$s where %5$s = '%6$s'"
            .formatted(schema, name, table.columnList(), other, table.operatorColumn(), operator));
  }

  private void each(List<Table> tables, String alteration) throws SQLException {
    for (Table table : tables) {
      Catalog.execute(
          connection,
          "alter table %s.%s %s".formatted(schema, Catalog.quoted(table.name()), alteration));
    }
  }

  /** A sign-in name that somebody else has here gets the beginning of the id behind it. */
  private List<String> takeInPeople(String ids, String other) throws SQLException {
    List<String> notes = new ArrayList<>();
    try (PreparedStatement statement =
            connection.prepareStatement(
                """
            insert into %1$s.person (id, name, sign_in_name, password_hash, generation, created_at)
            select p.id, p.name,
              case when t.id is null then p.sign_in_name
                else left(p.sign_in_name, 111) || '+' || right(p.id::text, 8) end,
              p.password_hash, p.generation, p.created_at
            from %2$s.person p left join %1$s.person t on t.sign_in_name = p.sign_in_name
            where p.id in (%3$s) and not exists (select from %1$s.person h where h.id = p.id)
            returning name, sign_in_name
            """
                    .formatted(schema, other, ids));
        ResultSet rows = statement.executeQuery()) {
      while (rows.next()) {
        if (rows.getString(2).matches(".*\\+[0-9a-f]{8}")) {
          notes.add(
              "%s signs in as %s: the former name is somebody else's here."
                  .formatted(rows.getString(1), rows.getString(2)));
        }
      }
    }
    return notes;
  }

  /** Each table after those it refers to at once; what refers to it at the end may be later. */
  private List<Table> inOrderOfReference(List<Table> tables) throws SQLException {
    Map<String, Set<String>> needs = new HashMap<>();
    for (String reference :
        Catalog.list(
            connection,
            "select c.relname || ' ' || r.relname from pg_constraint f"
                + " join pg_class c on c.oid = f.conrelid join pg_class r on r.oid = f.confrelid"
                + " where f.contype = 'f' and not f.condeferred and c.oid <> r.oid"
                + " and f.connamespace = current_schema()::regnamespace")) {
      String[] names = reference.split(" ");
      needs.computeIfAbsent(names[0], name -> new HashSet<>()).add(names[1]);
    }
    List<Table> ordered = new ArrayList<>();
    List<Table> left = new ArrayList<>(tables);
    while (!left.isEmpty()) {
      Set<String> waiting = new HashSet<>(left.stream().map(Table::name).toList());
      List<Table> ready =
          left.stream()
              .filter(
                  table ->
                      needs.getOrDefault(table.name(), Set.of()).stream()
                          .noneMatch(waiting::contains))
              .toList();
      if (ready.isEmpty()) {
        throw new IllegalStateException("Tables refer to one another in a circle: " + waiting);
      }
      ordered.addAll(ready);
      left.removeAll(ready);
    }
    return ordered;
  }

  /** As the head rows say, behind the walls as they stand. */
  Map<UUID, Restore.Head> heads() throws SQLException {
    connection.setAutoCommit(false);
    Map<UUID, Restore.Head> heads = new HashMap<>();
    try {
      Catalog.execute(connection, "set local search_path to " + schema);
      speakForInstallation();
      for (String operator : Catalog.list(connection, "select id from operator")) {
        Catalog.execute(
            connection, "select set_config('trestle.operator', '%s', true)".formatted(operator));
        try (PreparedStatement statement =
                connection.prepareStatement(
                    "select size, encode(root, 'hex') from ledger_head where operator_id = current_operator()");
            ResultSet row = statement.executeQuery()) {
          if (row.next()) {
            heads.put(
                UUID.fromString(operator), new Restore.Head(row.getLong(1), row.getString(2)));
          }
        }
      }
      return heads;
    } finally {
      connection.rollback();
      connection.setAutoCommit(true);
    }
  }

  private void speakForInstallation() throws SQLException {
    Catalog.execute(connection, "select set_config('trestle.installation', 'on', true)");
  }

  private boolean yes(String question) throws SQLException {
    return "t".equals(Catalog.list(connection, question).get(0));
  }
}
