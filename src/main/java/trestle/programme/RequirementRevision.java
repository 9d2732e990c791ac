package trestle.programme;

import jakarta.persistence.Entity;
import java.time.LocalDate;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** What a requirement says, in force from the day it happened on. */
@Entity
@Kind("requirement-revision")
class RequirementRevision extends Filed {
  UUID requirementId;
  UUID revises;
  String title;
  String kind;

  @JdbcTypeCode(SqlTypes.JSON)
  String rule;

  LocalDate effectiveOn;
  String force;
  String forbids;
  UUID[] covers;
  String toleranceCondition = "";
  String toleranceSource = "";
  String sourceReference = "";
  Integer labourMinutes;
  Integer downtimeHours;

  /** With {@link #modificationPresent}, or null for every aircraft. */
  String modification;

  Boolean modificationPresent;
  String approvedBy = "";
  boolean withdrawn;

  /** Of a programme's requirement: the programme's revision that it came with, or null. */
  UUID programmeRevision;
}
