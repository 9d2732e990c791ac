package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/**
 * What an engineer did about a defect, or what a correction says they did: it closes the defect.
 */
@Entity
@Table(name = "rectification")
@Kind("rectification")
class Rectification extends Filed {
  UUID aircraftId;
  UUID defectEntryId;
  String done;
  String dataReference;
  String licenceNumber;
  String licenceKind;
  String transcribedFrom = "";
  String signedBy = "";
  Boolean voided;
  UUID afterVoided;

  boolean isVoid() {
    return voided != null;
  }

  /** A row that takes this one away: it says the same, and that it should not have been filed. */
  Rectification takenAway() {
    Rectification row = new Rectification();
    row.aircraftId = aircraftId;
    row.defectEntryId = defectEntryId;
    row.done = done;
    row.dataReference = dataReference;
    row.licenceNumber = licenceNumber;
    row.licenceKind = licenceKind;
    row.transcribedFrom = transcribedFrom;
    row.signedBy = signedBy;
    row.voided = true;
    row.happened(happenedAt(), happenedOn());
    return row;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
