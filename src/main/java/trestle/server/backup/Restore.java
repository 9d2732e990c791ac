package trestle.server.backup;

import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/**
 * Takes a backup back. Its rows are set up in a schema beside the real one, migrated from the
 * backup's version, counted and compared; only then, in one transaction, they take their place.
 */
public final class Restore {
  private final Connection connection;
  private final Migrating migrating;
  private final String newest;

  /** Brings the tables of a schema to a version: null is the newest. */
  public interface Migrating {
    void to(String schema, String version);
  }

  /** A ledger's size and root in hexadecimal, or what is wrong with it. */
  public record Head(long size, String root) {}

  /** One operator's ledger, as it now stands. */
  public record Restored(String operator, Head head) {}

  /**
   * @param rows as many as the backup states
   * @param notes what somebody should know
   */
  public record Report(long rows, int tables, List<Restored> ledgers, List<String> notes) {}

  /**
   * @param connection of the owner of the tables, its own
   * @param newest the newest migration that this program has
   */
  public Restore(Connection connection, Migrating migrating, String newest) {
    this.connection = connection;
    this.migrating = migrating;
    this.newest = newest;
  }

  /**
   * The whole installation.
   *
   * @param replace whether what is there may be lost
   * @throws BackupRefused with the reason; the tables there are as they were
   */
  public Report whole(BackupFile file, boolean replace) throws IOException, SQLException {
    Manifest manifest = checked(file);
    if (manifest.operator() != null) {
      throw new BackupRefused(
          "It holds one operator only: restore that one with --operator %s."
              .formatted(manifest.operator()));
    }
    Target target = new Target(connection);
    if (!replace && !target.isEmpty()) {
      throw new BackupRefused(
          "There are records here already; --replace removes all of them and puts the backup in their place.");
    }
    return prepared(
        manifest,
        scratch -> {
          Scratch.Counted counted = scratch.load(file, null);
          compare(manifest, null, counted);
          scratch.bringUpToDate();
          target.replaceBy(Scratch.SCHEMA);
          return report(manifest, null, List.of(), target);
        });
  }

  /**
   * One operator, beside those that are here.
   *
   * @param wanted its id or name
   * @throws BackupRefused with the reason; the tables there are as they were
   */
  public Report operator(BackupFile file, String wanted) throws IOException, SQLException {
    Manifest manifest = checked(file);
    UUID operator = operatorIn(manifest, wanted);
    Target target = new Target(connection);
    if (!target.hasTables()) {
      migrating.to(target.schema(), null);
    }
    if (!target.schemaVersion().equals(newest)) {
      throw new BackupRefused(
          "The tables here are of schema %s, and this Trestle's are of schema %s: start this Trestle on them once, or use the one they belong to."
              .formatted(target.schemaVersion(), newest));
    }
    if (target.holds(operator)) {
      throw new BackupRefused(
          "The operator is here already: only one that is not can be restored by itself.");
    }
    return prepared(
        manifest,
        scratch -> {
          Scratch.Counted counted = scratch.load(file, operator);
          compare(manifest, operator, counted);
          scratch.bringUpToDate();
          List<String> notes = target.takeIn(operator, Scratch.SCHEMA);
          return report(manifest, operator, notes, target);
        });
  }

  private Manifest checked(BackupFile file) throws IOException {
    Manifest manifest = file.manifest();
    if (!manifest.schema().matches("\\d{1,9}(\\.\\d{1,9}){0,3}")) {
      throw new BackupRefused("Its manifest names no version of a schema.");
    }
    if (compareVersions(manifest.schema(), newest) > 0) {
      throw new BackupRefused(
          "It was written by a newer Trestle (%s, schema %s); this one knows schemas up to %s. Restore it with that one or a later."
              .formatted(manifest.program(), manifest.schema(), newest));
    }
    file.check();
    return manifest;
  }

  private static int compareVersions(String one, String other) {
    String[] left = one.split("\\.");
    String[] right = other.split("\\.");
    for (int i = 0; i < Math.max(left.length, right.length); i++) {
      int a = i < left.length ? Integer.parseInt(left[i]) : 0;
      int b = i < right.length ? Integer.parseInt(right[i]) : 0;
      if (a != b) {
        return Integer.compare(a, b);
      }
    }
    return 0;
  }

  private static UUID operatorIn(Manifest manifest, String wanted) {
    List<UUID> found =
        manifest.ledgers().stream()
            .filter(
                ledger ->
                    ledger.name().equals(wanted)
                        || ledger.operator().toString().equalsIgnoreCase(wanted))
            .map(Manifest.Ledger::operator)
            .toList();
    if (found.size() != 1) {
      throw new BackupRefused(
          found.isEmpty()
              ? "It holds no operator \"%s\".".formatted(wanted)
              : "It holds %d operators named \"%s\": give the id of one (%s)."
                  .formatted(found.size(), wanted, found));
    }
    return found.get(0);
  }

  private interface Work {
    Report in(Scratch scratch) throws IOException, SQLException;
  }

  private Report prepared(Manifest manifest, Work work) throws IOException, SQLException {
    Scratch scratch = new Scratch(connection, migrating);
    try {
      scratch.make(manifest);
      Report report = work.in(scratch);
      // Pages are quick at once: PostgreSQL would look at what came by and by.
      Catalog.execute(connection, "analyze");
      return report;
    } finally {
      if (!connection.isClosed()) {
        if (!connection.getAutoCommit()) {
          connection.rollback();
          connection.setAutoCommit(true);
        }
        scratch.remove();
      }
    }
  }

  private static void compare(Manifest manifest, UUID operator, Scratch.Counted counted) {
    for (Manifest.Table table : manifest.tables()) {
      long stated =
          manifest.parts().stream()
              .filter(part -> part.table().equals(table.name()))
              .filter(
                  part ->
                      operator == null
                          || part.operator() == null
                          || operator.equals(part.operator()))
              .mapToLong(Manifest.Part::rows)
              .sum();
      long found = counted.rows().get(table.name());
      if (found != stated) {
        throw new BackupRefused(
            "Of the table %s %,d rows arrived instead of %,d."
                .formatted(table.name(), found, stated));
      }
    }
    for (Manifest.Ledger ledger : manifest.ledgers()) {
      Head stated = new Head(ledger.size(), ledger.root());
      boolean wanted = operator == null || operator.equals(ledger.operator());
      if (wanted && !stated.equals(counted.heads().get(ledger.operator()))) {
        throw new BackupRefused(
            "The ledger of %s arrived otherwise than the backup states: %s."
                .formatted(ledger.name(), counted.heads().get(ledger.operator())));
      }
    }
  }

  /** With the heads as they stand in the tables in use. */
  private Report report(Manifest manifest, UUID operator, List<String> notes, Target target)
      throws SQLException {
    List<Restored> ledgers = new ArrayList<>();
    Map<UUID, Head> heads = target.heads();
    for (Manifest.Ledger ledger : manifest.ledgers()) {
      if (operator == null || operator.equals(ledger.operator())) {
        ledgers.add(new Restored(ledger.name(), heads.get(ledger.operator())));
      }
    }
    long rows =
        manifest.parts().stream()
            .filter(
                part ->
                    operator == null || part.operator() == null || operator.equals(part.operator()))
            .mapToLong(Manifest.Part::rows)
            .sum();
    return new Report(rows, manifest.tables().size(), ledgers, notes);
  }
}
