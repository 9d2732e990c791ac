package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A second person's inspection of signed work. */
@Entity
@Table(name = "line_inspection")
@Kind("line-inspection")
class LineInspection extends Filed {
  UUID aircraftId;
  UUID lineWorkId;
  UUID workedBy;
  UUID inspectedBy;
  String inspectorName;
  String words;
  String licenceNumber;
  String licenceKind;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
