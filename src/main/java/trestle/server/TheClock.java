package trestle.server;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.time.InstantSource;
import java.util.concurrent.Callable;

/**
 * The one clock. Everything that needs "now" injects {@link InstantSource}; while a story is told
 * (the demo), the teller's thread sees the time told.
 */
@ApplicationScoped
public class TheClock implements InstantSource {
  private final ThreadLocal<Instant> told = new ThreadLocal<>();

  @Override
  public Instant instant() {
    Instant telling = told.get();
    return telling == null ? Instant.now() : telling;
  }

  /** Runs work as if it were another time, on this thread only. */
  public <T> T telling(Instant time, Callable<T> work) throws Exception {
    Instant before = told.get();
    told.set(time);
    try {
      return work.call();
    } finally {
      if (before == null) {
        told.remove();
      } else {
        told.set(before);
      }
    }
  }
}
