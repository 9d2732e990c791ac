package trestle.records;

import io.quarkus.runtime.LaunchMode;
import io.quarkus.runtime.ShutdownEvent;
import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import org.jboss.logging.Logger;
import trestle.people.Operators;
import trestle.web.Viewer;

/**
 * Verifies every operator's ledger once a night, by the operator's own clock; by day too where it
 * was not done for a day and a half, as on a machine that is off at night.
 */
@ApplicationScoped
public class Nightly {
  private static final Logger LOG = Logger.getLogger(Nightly.class);
  private static final Duration OFTEN = Duration.ofHours(20);
  private static final Duration SELDOM = Duration.ofHours(36);
  private static final int FROM_HOUR = 1;
  private static final int TO_HOUR = 5;
  private static final int MINUTES = 30;

  @Inject Operators operators;
  @Inject Verify verify;
  @Inject Verifications verifications;
  @Inject InstantSource clock;

  private final ScheduledExecutorService timer =
      Executors.newSingleThreadScheduledExecutor(
          work -> {
            Thread thread = new Thread(work, "nightly-verification");
            thread.setDaemon(true);
            return thread;
          });

  void onStart(@Observes StartupEvent started) {
    if (LaunchMode.current() == LaunchMode.NORMAL) {
      timer.scheduleWithFixedDelay(this::look, MINUTES, MINUTES, TimeUnit.MINUTES);
    }
  }

  void onStop(@Observes ShutdownEvent stopped) {
    timer.shutdownNow();
  }

  private void look() {
    try {
      verifyWhatIsDue(clock.instant());
    } catch (RuntimeException e) {
      LOG.error("The nightly verification could not be done; it is tried again", e);
    }
  }

  /** One verification of each operator whose last is old enough; how many that were. */
  int verifyWhatIsDue(Instant now) {
    int done = 0;
    for (Operators.Line operator : operators.all(Here.anybody(null))) {
      Viewer viewer = Here.anybody(operator.id());
      if (isDue(verifications.newest(viewer), now, ZoneId.of(operator.timeZone()))) {
        VerifiedLine found = verify.run(viewer, null);
        done++;
        if (!found.isSound()) {
          LOG.errorf("The ledger of %s does not verify: %s", operator.name(), found.trouble());
        }
      }
    }
    return done;
  }

  /** One that began later than now did so under a wrong clock, and proves nothing. */
  static boolean isDue(List<VerifiedLine> newest, Instant now, ZoneId zone) {
    Optional<Instant> last =
        newest.stream().map(VerifiedLine::at).filter(at -> !at.isAfter(now)).findFirst();
    if (last.isEmpty()) {
      return true;
    }
    Duration since = Duration.between(last.get(), now);
    int hour = now.atZone(zone).getHour();
    boolean night = hour >= FROM_HOUR && hour < TO_HOUR;
    return since.compareTo(SELDOM) > 0 || night && since.compareTo(OFTEN) > 0;
  }
}
