package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** The report of a safety occurrence was sent. */
@Entity
@Table(name = "occurrence_report")
@Kind("occurrence-report")
class OccurrenceReport extends Revocable {
  UUID aircraftId;
  UUID occurrenceId;
  String reference;

  /** The row that took away the one before, where this is filed anew; null at first. */
  UUID afterVoided;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
