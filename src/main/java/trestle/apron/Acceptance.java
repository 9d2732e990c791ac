package trestle.apron;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.Map;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A pilot has taken an aircraft as it stood, with this fuel and oil on board. */
@Entity
@Table(name = "acceptance")
@Kind("acceptance")
class Acceptance extends Revocable {
  UUID aircraftId;
  String standing;
  BigDecimal fuelOnBoard;
  String fuelUnit;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> oilOnBoard;

  String remarks;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
