package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A check flight as its pilot logged it. */
@Entity
@Table(name = "check_flight")
@Kind("check-flight")
class CheckFlight extends Filed {
  UUID aircraftId;
  UUID releaseId;
  String words;
  boolean satisfactory;
  String pilotName;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
