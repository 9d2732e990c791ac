package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.reckoning.Counter;

/** What a counter of an aircraft stood at; null: not known, which is not zero. */
@Entity
@Table(name = "counter_opening")
@Kind("counter-opening")
class CounterOpening extends Filed {
  UUID aircraftId;
  String counter;
  Long amount;

  static CounterOpening of(UUID aircraftId, Counter counter, Long amount) {
    CounterOpening row = new CounterOpening();
    row.aircraftId = aircraftId;
    row.counter = counter.name();
    row.amount = amount;
    return row;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
