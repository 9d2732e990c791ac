package trestle.server;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.config.Config;
import org.flywaydb.core.api.FlywayException;
import trestle.server.backup.BackupFile;
import trestle.server.backup.BackupRefused;
import trestle.server.backup.BackupWriter;
import trestle.server.backup.Restore;

/** The commands backup and restore. They need the database alone, and start no application. */
final class BackupCommands {
  static final String BACKUP = "backup";
  static final String RESTORE = "restore";

  private static final String OPERATOR = "--operator";
  private static final String REPLACE = "--replace";

  private final Config config;
  private final PrintStream out;

  BackupCommands(Config config, PrintStream out) {
    this.config = config;
    this.out = out;
  }

  /** What was asked for: the file, and what follows it. */
  private record Asked(Path file, Optional<String> operator, boolean replace) {}

  /**
   * @return the exit code
   * @throws StartRefused with the reason
   */
  int run(CommandLine line) {
    Asked asked = asked(line);
    try {
      return line.command().equals(BACKUP) ? backup(asked) : restore(asked);
    } catch (BackupRefused refused) {
      throw new StartRefused(
          (line.command().equals(BACKUP) ? "No backup was written. " : "Nothing was restored. ")
              + refused.getMessage());
    } catch (IOException | SQLException | FlywayException e) {
      throw new StartRefused(
          (line.command().equals(BACKUP) ? "No backup was written: " : "Nothing was restored: ")
              + e.getMessage());
    }
  }

  private static Asked asked(CommandLine line) {
    List<String> words = new ArrayList<>(line.arguments());
    boolean replace = line.command().equals(RESTORE) && words.remove(REPLACE);
    Optional<String> operator = Optional.empty();
    int option = words.indexOf(OPERATOR);
    if (option >= 0 && option + 1 < words.size()) {
      operator = Optional.of(words.remove(option + 1));
      words.remove(option);
    }
    boolean together = replace && operator.isPresent();
    if (words.size() != 1 || words.get(0).startsWith("--") || together) {
      throw new StartRefused(
          line.command().equals(BACKUP)
              ? "Say: backup <file> [--operator <id or name>]"
              : "Say: restore <file> [--replace], or restore <file> --operator <id or name>",
          StartRefused.USAGE);
    }
    return new Asked(Path.of(words.get(0)).toAbsolutePath(), operator, replace);
  }

  private int backup(Asked asked) throws IOException, SQLException {
    checkThereIsOne();
    try (Reach reach = Reach.of(config);
        Connection connection = reach.connect()) {
      BackupWriter.Written written =
          new BackupWriter(connection, Version.current(), new TheClock().instant())
              .write(asked.file(), asked.operator());
      out.printf(
          "Kept %,d rows of %d tables in %s.%n", written.rows(), written.tables(), written.file());
      written.ledgers().forEach(it -> ledger(it.operator(), it.size(), it.root()));
      written.faults().forEach(out::println);
      return written.faults().isEmpty() ? 0 : 1;
    }
  }

  /** A backup of nothing, of a directory made just now, would be a surprise later. */
  private void checkThereIsOne() {
    if (config.getOptionalValue(DatabaseChoice.URL, String.class).isEmpty()) {
      Path directory = DatabaseChoice.directory(config);
      if (!Reach.isMade(directory)) {
        throw new BackupRefused(
            "There is no data directory %s: set TRESTLE_DATA_DIR to the one that is meant."
                .formatted(directory));
      }
    }
  }

  private int restore(Asked asked) throws IOException, SQLException {
    try (BackupFile file = BackupFile.open(asked.file());
        Reach reach = Reach.of(config)) {
      if (asked.operator().isEmpty()) {
        refuseWhileRunning(reach);
      }
      try (Connection connection = reach.connect()) {
        Restore restore =
            new Restore(
                connection,
                (schema, version) -> migrate(reach, schema, version),
                Migrations.newest(reach.url(), reach.users()));
        Restore.Report report =
            asked.operator().isPresent()
                ? restore.operator(file, asked.operator().get())
                : restore.whole(file, asked.replace());
        report(report, asked.file());
        return 0;
      }
    }
  }

  private static void migrate(Reach reach, String schema, String version) {
    String mark = version == null ? Migrations.mark().orElse(Migrations.UNMARKED) : "restoring";
    Migrations.run(reach.url(), reach.users(), mark, schema, version);
  }

  private static void refuseWhileRunning(Reach reach) throws SQLException {
    if (reach.isShared() || !reach.sessionsOfTheApplication().isEmpty()) {
      throw new BackupRefused("Trestle is running on this database: stop it first.");
    }
  }

  private void report(Restore.Report report, Path file) {
    out.printf(
        "Restored %,d rows of %d tables from %s, as many as it states.%n",
        report.rows(), report.tables(), file);
    report.ledgers().forEach(it -> ledger(it.operator(), it.head().size(), it.head().root()));
    report.notes().forEach(out::println);
    out.println("Ledgers recomputed from their lines: the same sizes and roots as in the backup.");
  }

  private void ledger(String operator, long size, String root) {
    out.printf("  %s: ledger of %,d lines, root %s%n", operator, size, root);
  }
}
