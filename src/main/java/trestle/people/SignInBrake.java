package trestle.people;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Duration;
import java.time.Instant;

/**
 * Slows guessing: after five failures of one name (or fifty from one address) each further one
 * doubles the wait, up to a quarter of an hour; a quiet day forgets them.
 */
@Entity
@Table(name = "sign_in_brake")
class SignInBrake {
  private static final Duration FORGET = Duration.ofDays(1);
  private static final long LONGEST_SECONDS = 900;

  @Id String subject;
  int failures;
  Instant lastFailureAt;
  Instant waitUntil;

  protected SignInBrake() {}

  SignInBrake(String subject, Instant now) {
    this.subject = subject;
    this.lastFailureAt = now;
    this.waitUntil = now;
  }

  boolean blocks(Instant now) {
    return now.isBefore(waitUntil);
  }

  void failed(Instant now, int free) {
    if (now.isAfter(lastFailureAt.plus(FORGET))) {
      failures = 0;
    }
    failures++;
    lastFailureAt = now;
    if (failures >= free) {
      long seconds = 15L << Math.min(failures - free, 6);
      waitUntil = now.plusSeconds(Math.min(seconds, LONGEST_SECONDS));
    }
  }
}
