package trestle.flights;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A person's word on one break: why, and for a gap whether it was flown. */
@Entity
@Table(name = "break_explanation")
@Kind(value = "break-explanation", version = 2)
class BreakExplanation extends Revocable {
  UUID aircraftId;
  UUID flightId;
  String kind;
  Long amount;
  boolean flown;
  String explanation;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
