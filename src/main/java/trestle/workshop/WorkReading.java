package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** One reading taken in work, or that one was taken away. */
@Entity
@Table(name = "work_reading")
@Kind(value = "work-reading", version = 2)
class WorkReading extends Filed {
  UUID aircraftId;
  UUID lineEntryId;
  UUID componentId;
  String kind;
  String place;
  BigDecimal value;
  String unit = "";
  BigDecimal supply;
  BigDecimal referenceReading;
  String words = "";
  String readerName;
  Boolean voided;

  WorkReading again() {
    WorkReading row = new WorkReading();
    row.aircraftId = aircraftId;
    row.lineEntryId = lineEntryId;
    row.componentId = componentId;
    row.kind = kind;
    row.place = place;
    row.value = value;
    row.unit = unit;
    row.supply = supply;
    row.referenceReading = referenceReading;
    row.words = words;
    row.readerName = readerName;
    return row;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
