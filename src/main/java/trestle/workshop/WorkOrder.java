package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** One row of a work order: as drawn up, or as a correction states it. */
@Entity
@Table(name = "work_order")
@Kind("work-order")
class WorkOrder extends Filed {
  UUID aircraftId;
  UUID entryId;
  int year;
  int number;
  String title;
  String customer = "";
  String place = "";
  LocalDate plannedFrom;
  LocalDate plannedTo;
  boolean needsApproval;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
