package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A position as stated; the newest row of an aircraft's code counts. */
@Entity
@Table(name = "aircraft_position")
@Kind(value = "aircraft-position", version = 2)
class PositionRow extends Filed {
  UUID aircraftId;
  String code;
  String kind;
  String label;
  boolean required;
  boolean withdrawn;

  static PositionRow of(UUID aircraftId, Position position, boolean withdrawn) {
    PositionRow row = new PositionRow();
    row.aircraftId = aircraftId;
    row.code = position.code();
    row.kind = position.kind().word();
    row.label = position.label();
    row.required = position.required();
    row.withdrawn = withdrawn;
    return row;
  }

  Position position() {
    return new Position(code, PartKind.parse(kind), label, required);
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
