package trestle.people;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;

@Entity
@Table(name = "administrator")
class Administrator {
  @Id UUID personId;
  Instant since;
  UUID appointedBy;

  protected Administrator() {}

  Administrator(UUID personId, Instant since, UUID appointedBy) {
    this.personId = personId;
    this.since = since;
    this.appointedBy = appointedBy;
  }
}
