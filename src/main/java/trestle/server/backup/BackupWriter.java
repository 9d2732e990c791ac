package trestle.server.backup;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.zip.Deflater;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.postgresql.PGConnection;
import org.postgresql.copy.CopyManager;
import trestle.server.backup.Catalog.Table;

/**
 * Writes a backup. One read-only transaction of one snapshot goes from operator to operator, saying
 * for each that it speaks for it: the walls stay up. Memory does not grow with the rows.
 */
public final class BackupWriter {
  private static final int BUFFER = 1 << 16;
  private static final String LEDGER = "ledger_entry";
  private static final String PEOPLE = "person";
  private static final String DRAFT = ".part";
  private static final FileAttribute<?> ONLY_FOR_US =
      PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"));

  private final Connection connection;
  private final Instant now;
  private final String program;
  private final List<Manifest.Part> parts = new ArrayList<>();
  private final List<Manifest.Ledger> ledgers = new ArrayList<>();
  private final List<String> faults = new ArrayList<>();

  /** What was written. */
  public record Written(
      Path file, long rows, int tables, List<Ledger> ledgers, List<String> faults) {}

  /** An operator's ledger as the backup holds it; root in hexadecimal. */
  public record Ledger(String operator, long size, String root) {}

  /**
   * @param connection of the owner of the tables, its own
   * @param program the version that writes
   */
  public BackupWriter(Connection connection, String program, Instant now) {
    this.connection = connection;
    this.program = program;
    this.now = now;
  }

  /**
   * Writes all or nothing: the file appears when it is whole and on the disk.
   *
   * @param only the id or name of the only operator, or empty
   * @throws BackupRefused when there is such a file already, or no such operator
   */
  public Written write(Path file, Optional<String> only) throws IOException, SQLException {
    if (Files.exists(file)) {
      throw there(file);
    }
    Path draft = file.resolveSibling(file.getFileName() + "." + UUID.randomUUID() + DRAFT);
    try {
      Manifest manifest = snapshot(draft, only);
      Seal.put(draft);
      publish(draft, file);
      return written(file, manifest);
    } finally {
      Files.deleteIfExists(draft);
    }
  }

  /** The draft under its name, whole, unless another was published under it meanwhile. */
  private static void publish(Path draft, Path file) throws IOException {
    try {
      try {
        Files.createLink(file, draft);
      } catch (FileAlreadyExistsException e) {
        throw e;
      } catch (UnsupportedOperationException | FileSystemException e) {
        // No file system for links: the name is taken first, and then its empty file replaced.
        Files.createFile(file, ONLY_FOR_US);
        Files.move(draft, file, StandardCopyOption.ATOMIC_MOVE);
      }
    } catch (FileAlreadyExistsException e) {
      throw there(file);
    }
  }

  private static BackupRefused there(Path file) {
    return new BackupRefused("%s exists already; it is not written over.".formatted(file));
  }

  private Written written(Path file, Manifest manifest) {
    return new Written(
        file,
        manifest.rows(),
        manifest.tables().size(),
        manifest.ledgers().stream()
            .map(ledger -> new Ledger(ledger.name(), ledger.size(), ledger.root()))
            .toList(),
        List.copyOf(faults));
  }

  private Manifest snapshot(Path draft, Optional<String> only) throws IOException, SQLException {
    connection.setAutoCommit(false);
    connection.setTransactionIsolation(Connection.TRANSACTION_REPEATABLE_READ);
    connection.setReadOnly(true);
    try (OutputStream out = onlyForUs(draft);
        ZipOutputStream zip = new ZipOutputStream(new BufferedOutputStream(out, BUFFER))) {
      zip.setComment(Seal.BLANK);
      zip.setLevel(Deflater.BEST_SPEED);
      String schema = Catalog.schemaVersion(connection);
      speakForInstallation();
      List<Operator> operators = operators(only);
      List<Table> tables = Catalog.tables(connection);
      UUID one = only.isPresent() ? operators.get(0).id() : null;
      writeInstallation(zip, tables, one);
      for (Operator operator : operators) {
        writeOperator(zip, tables, operator);
      }
      Manifest manifest = manifest(schema, one, tables);
      zip.putNextEntry(entry(Manifest.FILE));
      zip.write(manifest.text().getBytes(StandardCharsets.UTF_8));
      zip.closeEntry();
      zip.finish();
      return manifest;
    } finally {
      connection.rollback();
    }
  }

  private static OutputStream onlyForUs(Path draft) throws IOException {
    Files.createFile(draft, ONLY_FOR_US);
    return Files.newOutputStream(draft, StandardOpenOption.WRITE);
  }

  private Manifest manifest(String schema, UUID one, List<Table> tables) {
    Set<String> present = parts.stream().map(Manifest.Part::table).collect(Collectors.toSet());
    List<Manifest.Table> described =
        tables.stream()
            .filter(table -> one == null || present.contains(table.name()))
            .map(table -> new Manifest.Table(table.name(), table.columns()))
            .toList();
    return new Manifest(program, schema, now, one, described, ledgers, parts);
  }

  private record Operator(UUID id, String name) {}

  private List<Operator> operators(Optional<String> only) throws SQLException {
    List<Operator> all = new ArrayList<>();
    try (PreparedStatement statement =
        connection.prepareStatement(
            "select id, name from operator where ? is null or id::text = lower(?) or name = ?"
                + " order by id")) {
      for (int i = 1; i <= 3; i++) {
        statement.setString(i, only.orElse(null));
      }
      ResultSet rows = statement.executeQuery();
      while (rows.next()) {
        all.add(new Operator(rows.getObject(1, UUID.class), rows.getString(2)));
      }
    }
    if (only.isPresent() && all.size() != 1) {
      throw new BackupRefused(
          all.isEmpty()
              ? "There is no operator \"%s\" here.".formatted(only.get())
              : "%d operators are named \"%s\": give the id of one (%s)."
                  .formatted(
                      all.size(),
                      only.get(),
                      all.stream().map(o -> o.id().toString()).collect(Collectors.joining(", "))));
    }
    return all;
  }

  /** What belongs to nobody: for one operator, only the people its rows name. */
  private void writeInstallation(ZipOutputStream zip, List<Table> tables, UUID one)
      throws IOException, SQLException {
    if (one != null) {
      speakFor(one);
    }
    for (Table table : tables) {
      if (table.operatorColumn() == null && (one == null || table.name().equals(PEOPLE))) {
        String where = one == null ? "" : " where id in (" + People.namedBy(connection, one) + ")";
        writePart(zip, "installation/" + table.name() + ".copy", table, null, where);
      }
    }
  }

  private void writeOperator(ZipOutputStream zip, List<Table> tables, Operator operator)
      throws IOException, SQLException {
    speakFor(operator.id());
    for (Table table : tables) {
      if (table.operatorColumn() != null) {
        String where = " where %s = '%s'".formatted(table.operatorColumn(), operator.id());
        String file = "operators/%s/%s.copy".formatted(operator.id(), table.name());
        if (table.name().equals(LEDGER)) {
          writeLedger(zip, file, table, operator, where + " order by seq");
        } else {
          writePart(zip, file, table, operator.id(), where);
        }
      }
    }
  }

  /** The lines are reckoned up on their way, so that a broken ledger is known of now. */
  private void writeLedger(
      ZipOutputStream zip, String file, Table table, Operator operator, String where)
      throws IOException, SQLException {
    LedgerLines lines = new LedgerLines(table.columns());
    writePart(zip, file, table, operator.id(), where, lines);
    Manifest.Ledger head = head(operator);
    ledgers.add(head);
    if (lines.fault() != null) {
      faults.add("The ledger of %s is broken: %s.".formatted(operator.name(), lines.fault()));
    } else if (lines.size() != head.size() || !lines.root().equals(head.root())) {
      faults.add(
          "The ledger of %s is broken: its lines have not the root of its head."
              .formatted(operator.name()));
    }
  }

  private Manifest.Ledger head(Operator operator) throws SQLException {
    try (PreparedStatement statement =
        connection.prepareStatement(
            "select size, encode(root, 'hex') from ledger_head where operator_id = ?")) {
      statement.setObject(1, operator.id());
      ResultSet row = statement.executeQuery();
      if (!row.next()) {
        throw new BackupRefused("The operator %s has no ledger.".formatted(operator.name()));
      }
      return new Manifest.Ledger(operator.id(), operator.name(), row.getLong(1), row.getString(2));
    }
  }

  private void writePart(
      ZipOutputStream zip,
      String file,
      Table table,
      UUID operator,
      String where,
      OutputStream... also)
      throws IOException, SQLException {
    zip.putNextEntry(entry(file));
    BufferedOutputStream buffered = new BufferedOutputStream(zip, BUFFER);
    OutputStream[] targets = new OutputStream[also.length + 1];
    targets[0] = buffered;
    System.arraycopy(also, 0, targets, 1, also.length);
    Measured measured = new Measured(targets);
    String query =
        "copy (select %s from %s%s) to stdout"
            .formatted(table.columnList(), Catalog.quoted(table.name()), where);
    copy().copyOut(query, measured);
    buffered.flush();
    zip.closeEntry();
    parts.add(
        new Manifest.Part(
            file, table.name(), operator, measured.rows(), measured.bytes(), measured.sha256Hex()));
  }

  private CopyManager copy() throws SQLException {
    return connection.unwrap(PGConnection.class).getCopyAPI();
  }

  private ZipEntry entry(String name) {
    ZipEntry entry = new ZipEntry(name);
    entry.setTime(now.toEpochMilli());
    return entry;
  }

  private void speakForInstallation() throws SQLException {
    Catalog.execute(connection, "select set_config('trestle.installation', 'on', true)");
  }

  private void speakFor(UUID operator) throws SQLException {
    Catalog.execute(
        connection, "select set_config('trestle.operator', '%s', true)".formatted(operator));
  }
}
