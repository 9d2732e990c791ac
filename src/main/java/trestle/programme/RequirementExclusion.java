package trestle.programme;

import jakarta.persistence.Entity;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A programme's requirement that one registration does not carry; or carries again. */
@Entity
@Kind("requirement-exclusion")
class RequirementExclusion extends Filed {
  UUID requirementId;
  UUID aircraftId;
  boolean ended;
  String approvedBy = "";

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
