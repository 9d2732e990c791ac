package trestle.server;

import java.io.IOException;
import java.io.PrintStream;
import java.time.Duration;

/**
 * Starts the built-in PostgreSQL again when something has killed it while the program runs: the
 * system for want of memory, a full disk, somebody by mistake. What it had acknowledged is there
 * again; the application's connections are made anew as they are needed.
 */
final class PostgresWatch implements Runnable {
  private static final Duration LOOK_EVERY = Duration.ofSeconds(1);
  private static final Duration TRY_AGAIN_AFTER = Duration.ofSeconds(5);

  private final BuiltInPostgres server;
  private final PrintStream err;

  private PostgresWatch(BuiltInPostgres server, PrintStream err) {
    this.server = server;
    this.err = err;
  }

  static void over(BuiltInPostgres server) {
    Thread thread = new Thread(new PostgresWatch(server, System.err), "postgres-watch");
    thread.setDaemon(true);
    thread.start();
  }

  @Override
  public void run() {
    try {
      while (true) {
        Thread.sleep(LOOK_EVERY.toMillis());
        if (!startedIfNeedBe()) {
          Thread.sleep(TRY_AGAIN_AFTER.toMillis());
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private boolean startedIfNeedBe() {
    try {
      if (server.startAgainIfLost()) {
        err.println("The built-in PostgreSQL had ended; it was started again.");
      }
      return true;
    } catch (IOException | RuntimeException e) {
      err.println(e.getMessage());
      return false;
    }
  }
}
