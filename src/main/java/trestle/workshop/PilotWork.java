package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** Small work that a pilot did and signed. */
@Entity
@Table(name = "pilot_work")
@Kind("pilot-work")
class PilotWork extends Revocable {
  UUID aircraftId;
  UUID ruleId;
  String task;
  String words;
  String dataReference;

  @JdbcTypeCode(SqlTypes.JSON)
  String times;

  String pilotName;
  String licenceNumber;
  String licenceKind;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
