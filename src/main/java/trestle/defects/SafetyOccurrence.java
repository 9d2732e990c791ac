package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/**
 * A defect to be reported to somebody; or, not reportable, a person's word that it is none such.
 */
@Entity
@Table(name = "safety_occurrence")
@Kind(value = "safety-occurrence", version = 2)
class SafetyOccurrence extends Revocable {
  UUID aircraftId;
  UUID defectEntryId;
  boolean reportable;
  String kind;
  String reportTo;
  Instant dueAt;
  String remark;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
