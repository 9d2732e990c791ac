package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.UUID;

@Entity
@Table(name = "aircraft_revision")
class AircraftRevision {
  UUID operatorId;
  @Id UUID aircraftId;
  long revision;
}
