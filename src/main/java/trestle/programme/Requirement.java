package trestle.programme;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import java.util.UUID;

/** Whose a requirement is and what it is about; what it says is in its revisions. */
@Entity
class Requirement {
  @Id UUID id = UuidCreator.getTimeOrderedEpoch();
  UUID operatorId;
  UUID programmeId;
  UUID aircraftId;
  UUID componentId;
  String partNumber;
  String subject;
}
