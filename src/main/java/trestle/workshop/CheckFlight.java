package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A check flight as its pilot logged it. */
@Entity
@Table(name = "check_flight")
@Kind("check-flight")
class CheckFlight extends Revocable {
  UUID aircraftId;
  UUID releaseId;
  String words;
  boolean satisfactory;
  String pilotName;

  /** The row that took away the one before, where this is filed anew; null at first. */
  UUID afterVoided;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
