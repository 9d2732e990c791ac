package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A person has grounded the aircraft; or, with {@code lifts}, has lifted an earlier grounding. */
@Entity
@Table(name = "grounding")
@Kind("grounding")
class Grounding extends Filed {
  UUID aircraftId;
  String why;
  UUID lifts;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
