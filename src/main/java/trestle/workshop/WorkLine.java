package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** One row of a work order's line: as put on it, as a correction states it, or taken off. */
@Entity
@Table(name = "work_line")
@Kind("work-line")
class WorkLine extends Filed {
  static final String REQUIREMENT = "requirement";
  static final String TASK = "task";
  static final String DEFECT = "defect";
  static final String FINDING = "finding";
  static final String PUT_OFF = "put-off";
  static final String DISCREPANCY = "discrepancy";
  static final String FREE = "free";

  UUID aircraftId;
  UUID orderEntryId;
  UUID entryId;
  int ordinal;
  String origin;
  UUID requirementId;
  UUID componentId;
  boolean inspection;
  UUID defectEntryId;
  UUID parentLine;
  UUID fromLine;
  UUID fromRelease;
  Integer fromOrdinal;
  String title;
  String area;
  String dataReference = "";
  String rating = "";
  boolean independent;
  Boolean voided;

  /** A row that says of a line what it says now, to be changed. */
  WorkLine again() {
    WorkLine row = new WorkLine();
    row.aircraftId = aircraftId;
    row.orderEntryId = orderEntryId;
    row.entryId = entryId;
    row.ordinal = ordinal;
    row.origin = origin;
    row.requirementId = requirementId;
    row.componentId = componentId;
    row.inspection = inspection;
    row.defectEntryId = defectEntryId;
    row.parentLine = parentLine;
    row.fromLine = fromLine;
    row.fromRelease = fromRelease;
    row.fromOrdinal = fromOrdinal;
    row.title = title;
    row.area = area;
    row.dataReference = dataReference;
    row.rating = rating;
    row.independent = independent;
    return row;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
