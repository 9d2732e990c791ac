package trestle.server;

import io.quarkus.logging.Log;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.eclipse.microprofile.config.Config;
import trestle.people.InstallationNotice;
import trestle.server.backup.BackupRefused;
import trestle.server.backup.BackupWriter;

/**
 * Backups by themselves, once a day, while the application serves. One that failed is told to the
 * administrator, in the log and by /q/health/well until another succeeds, and is tried again each
 * hour.
 */
@ApplicationScoped
public class ScheduledBackups implements InstallationNotice {
  static final String DIRECTORY = "trestle.backup.dir";
  static final String AT = "trestle.backup.at";
  static final String KEEP = "trestle.backup.keep";

  private static final Duration LOOK_EVERY = Duration.ofSeconds(30);
  private static final Duration LEFT_AFTER = Duration.ofHours(1);
  private static final Duration TRY_AGAIN_AFTER = Duration.ofHours(1);

  /** One of several processes on a database makes it. */
  private static final long LOCK = 727_402;

  @Inject Config config;
  @Inject InstantSource clock;

  private volatile Failure failure;

  private record Failure(Instant at, String reason) {}

  /**
   * Reads the settings, and begins when they ask for it.
   *
   * @throws StartRefused when they can't be read
   */
  void begin() {
    Optional<Path> directory =
        config.getOptionalValue(DIRECTORY, String.class).map(it -> Path.of(it).toAbsolutePath());
    if (directory.isEmpty()) {
      return;
    }
    BackupPlan plan =
        BackupPlan.parse(
            config.getValue(AT, String.class),
            config.getValue(KEEP, String.class),
            ZoneId.systemDefault());
    ScheduledExecutorService thread =
        Executors.newSingleThreadScheduledExecutor(
            work -> {
              Thread made = new Thread(work, "backups");
              made.setDaemon(true);
              return made;
            });
    thread.scheduleWithFixedDelay(
        () -> look(plan, directory.get()),
        LOOK_EVERY.toSeconds(),
        LOOK_EVERY.toSeconds(),
        TimeUnit.SECONDS);
  }

  /** Makes the backup that is due, if one is. */
  void look(BackupPlan plan, Path directory) {
    Instant now = clock.instant();
    try {
      boolean waits = failure != null && now.isBefore(failure.at().plus(TRY_AGAIN_AFTER));
      if (!waits && plan.isDue(files(directory), now)) {
        make(plan, directory, now);
        failure = null;
      }
    } catch (IOException | SQLException | RuntimeException e) {
      failure = new Failure(now, e.getMessage());
      Log.errorf("The backup failed: %s", e.getMessage());
    }
  }

  private void make(BackupPlan plan, Path directory, Instant now) throws IOException, SQLException {
    try (Connection connection = Reach.ofTheApplication(config).connect()) {
      if (!isOurs(connection) || !plan.isDue(files(directory), now)) {
        return;
      }
      removeLeftDrafts(directory, now);
      BackupWriter.Written written =
          new BackupWriter(connection, Version.current(), now)
              .write(directory.resolve(BackupPlan.fileName(now)), Optional.empty());
      Log.infof("Kept %,d rows in %s", written.rows(), written.file());
      if (!written.faults().isEmpty()) {
        throw new BackupRefused(String.join(" ", written.faults()));
      }
    }
    for (Path old : plan.superfluous(files(directory), now)) {
      Files.delete(old);
    }
  }

  /** Those that a killed run left: one that is being written has changed just now. */
  private static void removeLeftDrafts(Path directory, Instant now) throws IOException {
    for (Path file : files(directory)) {
      boolean left =
          BackupPlan.isOurDraft(file)
              && Files.getLastModifiedTime(file).toInstant().isBefore(now.minus(LEFT_AFTER));
      if (left) {
        Files.deleteIfExists(file);
      }
    }
  }

  private static boolean isOurs(Connection connection) throws SQLException {
    try (var statement = connection.createStatement();
        var row = statement.executeQuery("select pg_try_advisory_lock(" + LOCK + ")")) {
      return row.next() && row.getBoolean(1);
    }
  }

  private static List<Path> files(Path directory) throws IOException {
    if (!Files.exists(directory)) {
      PrivateFiles.directory(directory);
    }
    try (Stream<Path> files = Files.list(directory)) {
      return files.toList();
    }
  }

  @Override
  public Optional<String> sentence() {
    return Optional.ofNullable(failure)
        .map(it -> "The last backup failed (%s): %s".formatted(it.at(), it.reason()));
  }
}
