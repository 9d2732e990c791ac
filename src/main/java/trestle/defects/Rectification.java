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

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
