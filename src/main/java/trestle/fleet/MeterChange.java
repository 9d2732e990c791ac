package trestle.fleet;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** The meter was replaced, or rolled over: what it read last, and what it reads from then on. */
@Entity
@Table(name = "meter_change")
@Kind("meter-change")
class MeterChange extends Filed {
  UUID aircraftId;
  Long offReading;
  long onReading;

  @Column(name = "void")
  boolean isVoid;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
