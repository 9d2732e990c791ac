package trestle.programme;

import jakarta.persistence.Entity;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** Which programme an aircraft follows, in which revision, from when. */
@Entity
@Kind("programme-adoption")
class ProgrammeAdoption extends Revocable {
  UUID aircraftId;
  UUID programmeId;

  /** Null where the programme had none yet. */
  UUID programmeRevision;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
