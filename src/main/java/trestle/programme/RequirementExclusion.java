package trestle.programme;

import jakarta.persistence.Entity;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A programme's requirement that one registration does not carry; or carries again. */
@Entity
@Kind("requirement-exclusion")
class RequirementExclusion extends Revocable {
  UUID requirementId;
  UUID aircraftId;
  boolean ended;
  String approvedBy = "";

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
