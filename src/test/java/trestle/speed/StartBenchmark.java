package trestle.speed;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import trestle.server.AppProcess;

/**
 * How long the packaged program takes from its start to its first page, and what memory it holds
 * afterwards: first with the demo to load, then on the database that is there.
 */
class StartBenchmark {
  private static final Duration IDLE = Duration.ofSeconds(45);

  @TempDir Path directory;

  @Test
  void toTheFirstPage() throws Exception {
    start("First start, with the demo loaded", IDLE);
    for (int i = 1; i <= 5; i++) {
      start("Start on a migrated database, run " + i, i == 5 ? IDLE : Duration.ZERO);
    }
  }

  private void start(String what, Duration idle) throws Exception {
    long begin = System.nanoTime();
    try (AppProcess app =
        AppProcess.on(directory).with("TRESTLE_DEMO", "true").asReadmeSays().start()) {
      if (app.statusOf("/sign-in") != 200) {
        throw new IllegalStateException("No page: " + app.output());
      }
      double seconds = (System.nanoTime() - begin) / 1e9;
      System.out.printf("%s: %.1f s to the first page%n", what, seconds);
      if (!idle.isZero()) {
        Thread.sleep(idle.toMillis());
        System.out.printf("  idle for %d s: %s%n", idle.toSeconds(), memory(app.handle().pid()));
      }
    }
  }

  /** Of the Java process alone, as Linux tells it. */
  private static String memory(long process) throws IOException {
    Path of = Path.of("/proc", Long.toString(process));
    try (Stream<String> status = Files.lines(of.resolve("status"));
        Stream<String> shared = Files.lines(of.resolve("smaps_rollup"))) {
      return Stream.concat(
              status.filter(line -> line.startsWith("VmRSS")),
              shared.filter(line -> line.startsWith("Pss:")))
          .map(line -> line.replaceAll("\\s+", " "))
          .reduce((a, b) -> a + ", " + b)
          .orElse("");
    }
  }
}
