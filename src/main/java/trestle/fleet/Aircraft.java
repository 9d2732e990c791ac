package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.UUID;

/** The bare identity of an aircraft; everything stated of it is filed beside it. */
@Entity
@Table(name = "aircraft")
class Aircraft {
  UUID operatorId;
  @Id UUID id;
}
