package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A work order was issued, approved, started or cancelled. */
@Entity
@Table(name = "work_order_step")
@Kind("work-order-step")
class WorkOrderStep extends Filed {
  static final String ISSUED = "issued";
  static final String APPROVED = "approved";
  static final String STARTED = "started";
  static final String CANCELLED = "cancelled";

  UUID aircraftId;
  UUID orderEntryId;
  String step;
  String remark = "";

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
