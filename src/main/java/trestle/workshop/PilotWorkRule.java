package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** Whether pilots may do small work on an aircraft; the newest row counts. */
@Entity
@Table(name = "pilot_work_rule")
@Kind("pilot-work-rule")
class PilotWorkRule extends Revocable {
  UUID aircraftId;
  boolean flownForHire;
  String authority;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
