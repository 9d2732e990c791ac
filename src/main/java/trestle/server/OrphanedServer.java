package trestle.server;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/**
 * The PostgreSQL of an earlier start that was killed before it could stop it. Whoever holds the
 * lock on the data directory may be sure that no living program uses it any more.
 */
final class OrphanedServer {
  private static final long PATIENCE = TimeUnit.SECONDS.toNanos(60);

  private final Path data;

  OrphanedServer(Path data) {
    this.data = data;
  }

  /**
   * Stops the orphan and waits until all its processes are gone; then removes a process file that
   * would block the start, because its number belongs by now to another process or a dead one that
   * nobody buried.
   *
   * @param stop asks the server of this directory to stop and waits for it
   */
  void clearAway(Runnable stop) throws IOException {
    Optional<Long> named = namedInProcessFile();
    if (named.filter(this::isPostgresHere).isPresent()) {
      stop.run();
    }
    if (!waitUntil(() -> processesHere().isEmpty())) {
      throw new StartRefused(
          "The PostgreSQL of an earlier start still runs on %s (processes %s) and did not stop within a minute. Stop it by hand."
              .formatted(data, processesHere()));
    }
    if (named.flatMap(ProcessHandle::of).isPresent()) {
      Files.deleteIfExists(processFile());
    }
  }

  /** Whether the server that the process file names is one, alive, and of this directory. */
  boolean isRunning() throws IOException {
    return namedInProcessFile().filter(this::isPostgresHere).isPresent();
  }

  private Path processFile() {
    return data.resolve("postmaster.pid");
  }

  private Optional<Long> namedInProcessFile() throws IOException {
    if (!Files.exists(processFile())) {
      return Optional.empty();
    }
    return Files.readAllLines(processFile()).stream()
        .findFirst()
        .map(String::strip)
        .filter(line -> line.matches("\\d{1,18}"))
        .map(Long::valueOf);
  }

  private List<Long> processesHere() {
    return ProcessHandle.allProcesses()
        .map(ProcessHandle::pid)
        .filter(this::isPostgresHere)
        .toList();
  }

  /** Every process of a PostgreSQL server works in its data directory; only Linux shows that. */
  private boolean isPostgresHere(long pid) {
    return ProcessHandle.of(pid)
        .map(ProcessHandle::info)
        .filter(OrphanedServer::isPostgres)
        .filter(info -> worksHere(pid) || startedHere(info))
        .isPresent();
  }

  private static boolean isPostgres(ProcessHandle.Info info) {
    return info.command()
        .map(program -> program.matches(".*/postgres( \\(deleted\\))?"))
        .orElseGet(() -> info.commandLine().orElse("").matches("(.*/)?postgres[: ].*"));
  }

  private boolean worksHere(long pid) {
    try {
      return Files.isSameFile(Path.of("/proc/" + pid + "/cwd"), data);
    } catch (IOException e) {
      return false;
    }
  }

  private boolean startedHere(ProcessHandle.Info info) {
    return info.arguments().filter(it -> List.of(it).contains(data.toString())).isPresent();
  }

  private static boolean waitUntil(BooleanSupplier done) {
    long start = System.nanoTime();
    while (!done.getAsBoolean()) {
      if (System.nanoTime() - start > PATIENCE) {
        return false;
      }
      try {
        TimeUnit.MILLISECONDS.sleep(50);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return false;
      }
    }
    return true;
  }
}
