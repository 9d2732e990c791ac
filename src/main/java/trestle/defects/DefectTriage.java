package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** An engineer's word on what a defect means for flight; the newest counts. */
@Entity
@Table(name = "defect_triage")
@Kind("defect-triage")
class DefectTriage extends Revocable {
  UUID aircraftId;
  UUID defectEntryId;
  String outcome;
  String remark;
  String licenceNumber;
  String licenceKind;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
