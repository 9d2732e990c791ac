package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** The report of a safety occurrence was sent. */
@Entity
@Table(name = "occurrence_report")
@Kind("occurrence-report")
class OccurrenceReport extends Filed {
  UUID aircraftId;
  UUID occurrenceId;
  String reference;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
