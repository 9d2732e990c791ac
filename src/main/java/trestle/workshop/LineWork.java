package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** What was done about a line, as its doer signed it. */
@Entity
@Table(name = "line_work")
@Kind("line-work")
class LineWork extends Filed {
  UUID aircraftId;
  UUID lineEntryId;
  String outcome;
  String words;
  String dataReference = "";
  String dataRevision = "";

  @JdbcTypeCode(SqlTypes.JSON)
  String times;

  UUID workedBy;
  String workerName;
  String performedBy = "";
  String licenceNumber;
  String licenceKind;
  UUID foundDefect;
  UUID complianceId;
  UUID bookId;
  Boolean voided;
  UUID afterVoided;

  boolean isVoid() {
    return Boolean.TRUE.equals(voided);
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
