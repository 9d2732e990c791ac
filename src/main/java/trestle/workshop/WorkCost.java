package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** One sum that an order is thought to cost or did, or that one was taken away. */
@Entity
@Table(name = "work_cost")
@Kind(value = "work-cost", version = 2)
class WorkCost extends Filed {
  UUID aircraftId;
  UUID orderEntryId;
  UUID lineEntryId;
  String stage;
  String kind;
  String words;
  Integer minutes;
  BigDecimal hourlyRate;
  BigDecimal amount;
  String currency;
  UUID labourRateId;
  Boolean voided;

  WorkCost again() {
    WorkCost row = new WorkCost();
    row.aircraftId = aircraftId;
    row.orderEntryId = orderEntryId;
    row.lineEntryId = lineEntryId;
    row.stage = stage;
    row.kind = kind;
    row.words = words;
    row.minutes = minutes;
    row.hourlyRate = hourlyRate;
    row.amount = amount;
    row.currency = currency;
    row.labourRateId = labourRateId;
    return row;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
