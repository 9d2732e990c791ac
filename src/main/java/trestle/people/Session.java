package trestle.people;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;

/** One signed-in browser. Gone when signed out; void when the person's generation has moved on. */
@Entity
@Table(name = "session")
class Session {
  @Id UUID id = UUID.randomUUID();
  UUID personId;
  UUID operatorId;
  int generation;
  Instant startedAt;
  Instant expiresAt;
}
