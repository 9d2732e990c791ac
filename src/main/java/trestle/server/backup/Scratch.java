package trestle.server.backup;

import java.io.IOException;
import java.io.InputStream;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import org.postgresql.PGConnection;
import org.postgresql.copy.CopyManager;
import trestle.server.backup.Catalog.Table;

/**
 * The schema beside the real one in which a backup's rows are set up and looked at. Whatever goes
 * wrong in here has touched nothing.
 */
final class Scratch {
  static final String SCHEMA = "trestle_restoring";
  private static final int BUFFER = 1 << 16;
  private static final int LARGE = 100;

  private static final String PIECES =
      """
      select 'alter table ' || conrelid::regclass || ' drop constraint ' || quote_ident(conname),
        'alter table ' || conrelid::regclass || ' add constraint ' || quote_ident(conname) || ' '
          || pg_get_constraintdef(oid),
        case contype when 'f' then 1 else 3 end as place, oid
      from pg_constraint
      where connamespace = current_schema()::regnamespace and (contype = 'f'
        or contype in ('p', 'u')
          and conrelid in (select t::regclass from unnest(?::text[]) t))
      union all
      select 'drop index ' || i.indexrelid::regclass, pg_get_indexdef(i.indexrelid), 2, i.indexrelid
      from pg_index i
      where i.indrelid in (select t::regclass from unnest(?::text[]) t)
        and not exists (select from pg_constraint c where c.conindid = i.indexrelid
          and c.contype in ('p', 'u'))
      order by 3, 4
      """;

  private final Connection connection;
  private final Restore.Migrating migrating;

  Scratch(Connection connection, Restore.Migrating migrating) {
    this.connection = connection;
    this.migrating = migrating;
  }

  /** Rows and heads as counted in the tables. */
  record Counted(Map<String, Long> rows, Map<UUID, Restore.Head> heads) {}

  /** Empty tables of the backup's own schema; what an interrupted restore left is gone. */
  void make(Manifest manifest) throws SQLException {
    remove();
    Catalog.execute(connection, "create schema " + SCHEMA);
    migrating.to(SCHEMA, manifest.schema());
    lookHere();
    checkShape(manifest);
  }

  void remove() throws SQLException {
    Catalog.execute(connection, "drop schema if exists " + SCHEMA + " cascade");
  }

  void bringUpToDate() {
    migrating.to(SCHEMA, null);
  }

  private void lookHere() throws SQLException {
    Catalog.execute(connection, "set search_path to " + SCHEMA);
  }

  private void checkShape(Manifest manifest) throws SQLException {
    Map<String, List<String>> here = new TreeMap<>();
    Catalog.tables(connection).forEach(table -> here.put(table.name(), table.columns()));
    for (Manifest.Table table : manifest.tables()) {
      List<String> columns = here.getOrDefault(table.name(), List.of());
      if (!new TreeSet<>(columns).equals(new TreeSet<>(table.columns()))) {
        throw new BackupRefused(
            "Its table %s has other columns than the one of schema %s that this Trestle knows."
                .formatted(table.name(), manifest.schema()));
      }
    }
    if (manifest.operator() == null && manifest.tables().size() != here.size()) {
      throw new BackupRefused(
          "It has other tables than schema %s that this Trestle knows."
              .formatted(manifest.schema()));
    }
  }

  /**
   * All rows in one transaction: without triggers, since what they would keep is in the backup, and
   * with keys and indexes put back over the whole, which takes a fraction of the time.
   */
  Counted load(BackupFile file, UUID operator) throws IOException, SQLException {
    connection.setAutoCommit(false);
    Catalog.execute(connection, "set local maintenance_work_mem = '128MB'");
    List<String> walled =
        Catalog.list(
            connection,
            "select quote_ident(relname) from pg_class where relforcerowsecurity"
                + " and relnamespace = current_schema()::regnamespace");
    List<Table> tables = Catalog.tables(connection);
    List<String> names = tables.stream().map(table -> Catalog.quoted(table.name())).toList();
    List<Piece> pieces = takenApart(large(file.manifest()));
    each(walled, "alter table %s no force row level security");
    each(names, "alter table %s disable trigger user");
    Catalog.execute(connection, pieces.stream().map(Piece::drop).toList());
    copyIn(file, operator);
    Catalog.execute(connection, "set constraints all immediate");
    Collections.reverse(pieces);
    Catalog.execute(connection, pieces.stream().map(Piece::add).toList());
    each(names, "analyze %s");
    Counted counted = new Counted(rows(tables), heads());
    each(names, "alter table %s enable trigger user");
    each(walled, "alter table %s force row level security");
    connection.commit();
    connection.setAutoCommit(true);
    return counted;
  }

  /** Where taking indexes away is worth it: of an empty table each costs more than it saves. */
  private static List<String> large(Manifest manifest) {
    return manifest.tables().stream()
        .map(Manifest.Table::name)
        .filter(table -> manifest.rowsOf(table) > LARGE)
        .toList();
  }

  private void copyIn(BackupFile file, UUID operator) throws IOException, SQLException {
    CopyManager copy = connection.unwrap(PGConnection.class).getCopyAPI();
    for (Manifest.Part part : file.parts(operator)) {
      Manifest.Table table = file.manifest().table(part.table());
      String columns = new Table(table.name(), table.columns(), false).columnList();
      try (InputStream rows = file.stream(part)) {
        copy.copyIn(
            "copy %s (%s) from stdin".formatted(Catalog.quoted(table.name()), columns),
            rows,
            BUFFER);
      }
    }
  }

  private void each(List<String> names, String statement) throws SQLException {
    Catalog.execute(connection, names.stream().map(statement::formatted).toList());
  }

  /** A key or an index, as it is taken away and put back. */
  private record Piece(String drop, String add) {}

  /**
   * All foreign keys, then keys and other indexes of large tables; put back the other way round.
   */
  private List<Piece> takenApart(List<String> large) throws SQLException {
    List<Piece> pieces = new ArrayList<>();
    try (PreparedStatement statement = connection.prepareStatement(PIECES)) {
      for (int parameter = 1; parameter <= 2; parameter++) {
        statement.setArray(parameter, connection.createArrayOf("text", large.toArray()));
      }
      ResultSet rows = statement.executeQuery();
      while (rows.next()) {
        pieces.add(new Piece(rows.getString(1), rows.getString(2)));
      }
    }
    return pieces;
  }

  private Map<String, Long> rows(List<Table> tables) throws SQLException {
    Map<String, Long> rows = new TreeMap<>();
    for (Table table : tables) {
      String count = "select count(*) from " + Catalog.quoted(table.name());
      rows.put(table.name(), Long.parseLong(Catalog.list(connection, count).get(0)));
    }
    return rows;
  }

  /** From the lines as the database now has them, not from what a head says. */
  private Map<UUID, Restore.Head> heads() throws IOException, SQLException {
    Map<UUID, Restore.Head> heads = new HashMap<>();
    CopyManager copy = connection.unwrap(PGConnection.class).getCopyAPI();
    for (String operator : Catalog.list(connection, "select id from operator order by id")) {
      LedgerLines lines = new LedgerLines(List.of("seq", "json", "leaf"));
      copy.copyOut(
          "copy (select seq, json, leaf from ledger_entry where operator_id = '%s' order by seq) to stdout"
              .formatted(operator),
          lines);
      String root = lines.fault() == null ? lines.root() : lines.fault();
      String stated =
          Catalog.list(
                  connection,
                  "select size || ' ' || encode(root, 'hex') from ledger_head where operator_id = '%s'"
                      .formatted(operator))
              .get(0);
      if (!stated.equals(lines.size() + " " + root)) {
        root = "its head says " + stated;
      }
      heads.put(UUID.fromString(operator), new Restore.Head(lines.size(), root));
    }
    return heads;
  }
}
