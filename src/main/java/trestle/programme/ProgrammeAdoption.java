package trestle.programme;

import jakarta.persistence.Entity;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** Which programme an aircraft follows, from when. */
@Entity
@Kind("programme-adoption")
class ProgrammeAdoption extends Filed {
  UUID aircraftId;
  UUID programmeId;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
