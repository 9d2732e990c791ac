package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A person's word that a defect is an earlier one come back, or that it is not. */
@Entity
@Table(name = "defect_repeat")
@Kind("defect-repeat")
class DefectRepeat extends Revocable {
  UUID aircraftId;
  UUID defectEntryId;
  UUID earlierEntryId;
  boolean same;
  String remark;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
