package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A special flight permit, or that it was given up. */
@Entity
@Table(name = "flight_permit")
@Kind("flight-permit")
class FlightPermit extends Filed {
  UUID aircraftId;
  String number;
  String issuedBy;
  String conditions;
  LocalDate firstDay;
  LocalDate lastDay;
  Boolean voided;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
