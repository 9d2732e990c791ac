package trestle.people;

import java.time.Instant;
import java.util.UUID;

/**
 * That a person has just proven who they are. Only {@link IdentityProof} makes one; it serves what
 * is signed in that one press.
 */
public final class Proof {
  private final UUID personId;
  private final Instant at;

  Proof(UUID personId, Instant at) {
    this.personId = personId;
    this.at = at;
  }

  public boolean isOf(UUID someone) {
    return personId.equals(someone);
  }

  public Instant at() {
    return at;
  }
}
