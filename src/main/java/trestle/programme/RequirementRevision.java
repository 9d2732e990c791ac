package trestle.programme;

import jakarta.persistence.Entity;
import java.time.LocalDate;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.ledger.Repeats;

/** What a requirement says, in force from the day it happened on. */
@Entity
@Kind(value = "requirement-revision", version = 2)
@Repeats(
    table = "requirement",
    by = "requirement_id",
    columns = {"programme_id", "aircraft_id", "component_id", "part_number", "subject"})
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

  // Whose the requirement is, so that the ledger says it; null in revisions of before.
  UUID ofProgrammeId;
  UUID ofAircraftId;
  UUID ofComponentId;
  String ofPartNumber;
  String ofSubject;

  @Override
  public UUID ledgerAircraft() {
    return ofAircraftId;
  }

  void of(Requirement requirement) {
    requirementId = requirement.id;
    ofProgrammeId = requirement.programmeId;
    ofAircraftId = requirement.aircraftId;
    ofComponentId = requirement.componentId;
    ofPartNumber = requirement.partNumber;
    ofSubject = requirement.subject;
  }
}
