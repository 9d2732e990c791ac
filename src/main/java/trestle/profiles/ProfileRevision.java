package trestle.profiles;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** All that a profile says, in force from the day it happened on. */
@Entity
@Table(name = "rule_profile_revision")
@Kind("rule-profile-revision")
class ProfileRevision extends Filed {
  UUID aircraftId;
  UUID revises;
  String startedFrom;

  @JdbcTypeCode(SqlTypes.JSON)
  String says;

  String document = "";
  String approvedBy;
  boolean ended;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
