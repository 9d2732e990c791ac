package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A second person's inspection of signed work. */
@Entity
@Table(name = "line_inspection")
@Kind("line-inspection")
class LineInspection extends Revocable {
  UUID aircraftId;
  UUID lineWorkId;
  UUID workedBy;
  UUID inspectedBy;
  String inspectorName;
  String words;
  String licenceNumber;
  String licenceKind;

  /** The row that took away the one before, where this is filed anew; null at first. */
  UUID afterVoided;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
