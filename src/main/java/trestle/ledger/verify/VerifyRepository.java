package trestle.ledger.verify;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import javax.sql.DataSource;
import org.postgresql.PGStatement;
import trestle.ledger.verify.KeptFiles.Naming;

/**
 * Reads an operator's ledger and filed tables in connections of its own, all at one moment of the
 * database, few rows in memory at a time.
 */
@ApplicationScoped
class VerifyRepository {
  private static final int FETCHED = 1_000;

  private static final int PIECE = 1 << 20;

  @Inject DataSource dataSource;

  /**
   * Opens the operator's rows as they are at this moment.
   *
   * @param moment of another reader to share it, or null
   */
  Reader open(UUID operatorId, String moment) {
    try {
      Connection connection = dataSource.getConnection();
      connection.setAutoCommit(false);
      Reader reader = new Reader(connection, operatorId);
      try {
        reader.begin(moment);
      } catch (SQLException e) {
        reader.close();
        throw e;
      }
      return reader;
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  /** From one sequence to another, both within. */
  record Span(long first, long last) {
    static final Span NOTHING = new Span(Long.MAX_VALUE, Long.MIN_VALUE);

    boolean meets(long after, long upTo) {
      return first <= upTo && last > after;
    }
  }

  /** The head as stored. */
  record Head(long size, byte[] frontier, byte[] root) {}

  /** One connection's view of an operator. */
  static final class Reader implements AutoCloseable {
    private final Connection connection;
    private final UUID operatorId;

    Reader(Connection connection, UUID operatorId) {
      this.connection = connection;
      this.operatorId = operatorId;
    }

    private void begin(String moment) throws SQLException {
      run("set transaction isolation level repeatable read, read only");
      if (moment != null) {
        run("set transaction snapshot '" + moment + "'");
      }
      run("set local time zone 'UTC'");
      run("set local datestyle to 'ISO'");
      run("set local trestle.operator = '" + operatorId + "'");
    }

    private void run(String sql) throws SQLException {
      try (var statement = connection.createStatement()) {
        statement.execute(sql);
      }
    }

    /** For other readers to share while this one is open. */
    String moment() {
      try (Rows row = ask("select pg_export_snapshot()")) {
        row.next();
        return row.text(0);
      }
    }

    Head head() {
      try (Rows row =
          ask("select size, frontier, root from ledger_head where operator_id = ?", operatorId)) {
        return row.next() ? new Head(row.number(0), row.bytes(1), row.bytes(2)) : null;
      }
    }

    /** Sequence, JSON, leaf, then what else the line says, in order. */
    Rows lines(long after, long upTo) {
      return ask(
          "select seq, json, leaf, kind, kind_version, recorded_at, recorded_by, record_id,"
              + " aircraft_id from ledger_entry"
              + " where operator_id = ? and seq > ? and seq <= ? order by seq",
          operatorId,
          after,
          upTo);
    }

    /** Sequence and JSON alone. */
    Rows texts(long after, long upTo) {
      return ask(
          "select seq, json from ledger_entry"
              + " where operator_id = ? and seq > ? and seq <= ? order by seq",
          operatorId,
          after,
          upTo);
    }

    /** The columns of a table's rows in their order, then the sequence, then the aircraft. */
    Rows rows(FiledTable table, long after, long upTo) {
      String columns =
          table.columns().stream().map(FiledColumn::asked).collect(Collectors.joining(", "));
      return ask(
          "select %s, t.ledger_seq, %s from %s t where t.operator_id = ? and t.ledger_seq > ? and t.ledger_seq <= ? order by t.ledger_seq"
              .formatted(columns, table.aircraft(), table.name()),
          operatorId,
          after,
          upTo);
    }

    /** The first and last sequence that a table's rows have; empty where it has none. */
    Span span(FiledTable table) {
      String sql =
          "select min(ledger_seq), max(ledger_seq) from %s where operator_id = ?"
              .formatted(table.name());
      try (Rows row = ask(sql, operatorId)) {
        row.next();
        return row.bytes(0) == null ? Span.NOTHING : new Span(row.number(0), row.number(1));
      }
    }

    /** Id and sequence of rows whose sequence no line of the ledger could have. */
    Rows strays(FiledTable table, long size) {
      return ask(
          "select id::text, ledger_seq from %s where operator_id = ? and (ledger_seq < 1 or ledger_seq > ?) order by ledger_seq, id"
              .formatted(table.name()),
          operatorId,
          size);
    }

    /** Sequence and hash of rows that name a file which is not there, the first row first. */
    Rows withoutFile(Naming naming) {
      return ask(naming.missing(), operatorId, operatorId);
    }

    /** The first row that names a file, by its sequence. */
    Rows naming(Naming naming, String sha256) {
      return ask(naming.namedBy(), operatorId, sha256);
    }

    /** The first filed row that repeats something which is not so: its sequence, whom it names. */
    Rows differing(Repeated repeated) {
      return ask(repeated.differing(), operatorId);
    }

    /** The hashes by which a table keeps files. */
    Rows files(String table) {
      return ask(
          "select sha256 from " + table + " where operator_id = ? order by sha256", operatorId);
    }

    /** The next piece of a file's bytes; empty past its end. */
    byte[] piece(String table, String sha256, int number) {
      try (Rows row =
          ask(
              "select substring(bytes from ? for ?) from "
                  + table
                  + " where operator_id = ? and sha256 = ?",
              number * PIECE + 1,
              PIECE,
              operatorId,
              sha256)) {
        row.next();
        return row.bytes(0);
      }
    }

    /** The first and last sequence that any line has; nulls where there is none. */
    Rows ends() {
      return ask(
          "select min(seq), max(seq), count(*) from ledger_entry where operator_id = ?",
          operatorId);
    }

    /** Kept roots of full subtrees, by level and place, that lie within some lines. */
    Map<String, byte[]> subtrees(int leastLevel, long after, long upTo) {
      Map<String, byte[]> kept = new HashMap<>();
      try (Rows rows =
          ask(
              "select level, place, root from ledger_subtree where operator_id = ? and level >= ?"
                  + " and place << level >= ? and (place + 1) << level <= ?",
              operatorId,
              leastLevel,
              after,
              upTo)) {
        while (rows.next()) {
          kept.put(rows.text(0) + " " + rows.text(1), rows.bytes(2));
        }
      }
      return kept;
    }

    private Rows ask(String sql, Object... values) {
      try {
        PreparedStatement statement = connection.prepareStatement(sql);
        // Never prepared for good, so that all comes as the text that the database writes.
        statement.unwrap(PGStatement.class).setPrepareThreshold(0);
        statement.setFetchSize(FETCHED);
        for (int i = 0; i < values.length; i++) {
          statement.setObject(i + 1, values[i]);
        }
        return new Rows(statement, statement.executeQuery());
      } catch (SQLException e) {
        throw new IllegalStateException(sql, e);
      }
    }

    @Override
    public void close() {
      try (connection) {
        connection.rollback();
        connection.setAutoCommit(true);
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }
  }

  /** Rows read one after another. */
  static final class Rows implements AutoCloseable, FiledTable.Values {
    private final PreparedStatement statement;
    private final ResultSet rows;

    Rows(PreparedStatement statement, ResultSet rows) {
      this.statement = statement;
      this.rows = rows;
    }

    boolean next() {
      try {
        return rows.next();
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }

    String text(int column) {
      try {
        return rows.getString(column + 1);
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }

    long number(int column) {
      try {
        return rows.getLong(column + 1);
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }

    /** Of a text, and of all that is asked for as text, the letters in UTF-8; else the bytes. */
    @Override
    public byte[] bytes(int column) {
      try {
        return rows.getBytes(column + 1);
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }

    @Override
    public void close() {
      try (statement) {
        rows.close();
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }
  }
}
