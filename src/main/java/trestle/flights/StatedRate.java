package trestle.flights;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A rate a day that a person states; null: back to the mean of what was flown. */
@Entity
@Table(name = "stated_rate")
@Kind("stated-rate")
class StatedRate extends Filed {
  UUID aircraftId;
  String counter;
  BigDecimal perDay;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
