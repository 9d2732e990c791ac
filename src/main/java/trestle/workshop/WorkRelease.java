package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** What was certified of an aircraft when its work was over: released, or not airworthy. */
@Entity
@Table(name = "work_release")
@Kind("work-release")
class WorkRelease extends Filed {
  UUID aircraftId;
  UUID orderEntryId;
  boolean airworthy;
  String statement;
  String[] discrepancies;
  LocalDate completedOn;
  String checkFlight = "";

  @JdbcTypeCode(SqlTypes.JSON)
  String times;

  String remarks = "";
  String releaserName;
  String licenceNumber;
  String licenceKind;
  String profileName;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
