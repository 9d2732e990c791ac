package trestle.server;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.flywaydb.core.api.FlywayException;
import trestle.server.backup.BackupRefused;
import trestle.server.backup.BackupWriter;

/**
 * Keeps what there is before its tables are changed by a new release: there is no other way back.
 */
final class UpgradeBackup {
  private static final String PREFIX = "before-upgrade-";
  private static final int KEPT = 3;

  private UpgradeBackup() {}

  /**
   * Does nothing on a database without tables, or with none to be changed.
   *
   * @throws StartRefused when it can't be written; nothing is changed then
   */
  static void make(
      String url, Migrations.Users users, Path directory, Instant now, PrintStream out) {
    try {
      Optional<String> version = Migrations.aboutToChange(url, users);
      if (version.isPresent()) {
        PrivateFiles.directory(directory);
        Path file = directory.resolve("%s%s-%s".formatted(PREFIX, version.get(), momentOf(now)));
        try (Connection connection =
            DatabaseUsers.connect(url, users.owner(), users.ownerPassword())) {
          new BackupWriter(connection, Version.current(), now).write(file, Optional.empty());
        }
        out.printf("The tables will be changed. As they were they are kept in %s.%n", file);
        removeOlder(directory, file, now);
      }
    } catch (IOException | SQLException | FlywayException | BackupRefused e) {
      throw new StartRefused(
          "The tables must be changed for this release, but the backup before that could not be written, so nothing was changed: %s"
              .formatted(e.getMessage()));
    }
  }

  /** What was dated by a wrong clock is kept, and takes no other's place. */
  private static void removeOlder(Path directory, Path made, Instant now) throws IOException {
    String believed = momentOf(BackupPlan.believedUntil(now));
    List<Path> before;
    try (Stream<Path> files = Files.list(directory)) {
      before =
          files
              .filter(file -> file.getFileName().toString().matches(PREFIX + ".*\\.zip"))
              .filter(file -> !file.equals(made) && moment(file).compareTo(believed) < 0)
              .sorted(Comparator.comparing(UpgradeBackup::moment).reversed())
              .toList();
    }
    for (Path old : before.subList(Math.min(KEPT - 1, before.size()), before.size())) {
      Files.delete(old);
    }
  }

  private static String momentOf(Instant now) {
    return BackupPlan.fileName(now).replace("trestle-", "");
  }

  private static String moment(Path file) {
    String name = file.getFileName().toString();
    return name.substring(name.lastIndexOf('-') + 1);
  }
}
