package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** Whether one piece of equipment is fitted, removed or inoperative; the newest row counts. */
@Entity
@Table(name = "equipment")
@Kind("equipment")
class Equipment extends Revocable {
  UUID equipmentId;
  UUID aircraftId;
  String name;
  String state;
  String placard;
  String remarks;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }

  Configuration.Item sheet() {
    return new Configuration.Item(equipmentId, name, state, placard, remarks, happenedOn());
  }
}
