package trestle.flights;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A rate a day that a person states; null: back to the mean of what was flown. */
@Entity
@Table(name = "stated_rate")
@Kind("stated-rate")
class StatedRate extends Revocable {
  UUID aircraftId;
  String counter;
  BigDecimal perDay;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
