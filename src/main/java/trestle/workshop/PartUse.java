package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A part that came off, went on or was used, with the paper that came with it. */
@Entity
@Table(name = "part_use")
@Kind("part-use")
class PartUse extends Filed {
  static final String OFF = "off";
  static final String ON = "on";
  static final String USED = "used";

  UUID aircraftId;
  UUID lineEntryId;
  String movement;
  String partClass;
  String description;
  String partNumber = "";
  String serial = "";
  String batch = "";
  BigDecimal quantity;
  String unit = "";
  String evidence = "";
  String place = "";
  UUID componentId;
  UUID fitmentId;
  UUID removalId;
  Boolean voided;

  /** A row that says of a part what it says now, to be changed. */
  PartUse again() {
    PartUse row = new PartUse();
    row.aircraftId = aircraftId;
    row.lineEntryId = lineEntryId;
    row.movement = movement;
    row.partClass = partClass;
    row.description = description;
    row.partNumber = partNumber;
    row.serial = serial;
    row.batch = batch;
    row.quantity = quantity;
    row.unit = unit;
    row.evidence = evidence;
    row.place = place;
    row.componentId = componentId;
    row.fitmentId = fitmentId;
    row.removalId = removalId;
    return row;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
