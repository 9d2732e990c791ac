package trestle.apron;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A pilot has done the pre-flight inspection of an aircraft. */
@Entity
@Table(name = "preflight_inspection")
@Kind("pre-flight-inspection")
class PreflightInspection extends Revocable {
  UUID aircraftId;
  String[] reminded;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
