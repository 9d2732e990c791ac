package trestle.directives;

import jakarta.persistence.Entity;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** What somebody judged of one paragraph for one aircraft or component. */
@Entity
@Kind("directive-assessment")
class DirectiveAssessment extends Revocable {
  UUID paragraphId;
  UUID paragraphRow;
  String revision;
  LocalDate effectiveOn;
  UUID aircraftId;
  UUID componentId;
  String subjectName;
  String subjectSerial;
  String restsOn;
  String verdict;
  String why = "";
  LocalDate lastDay;
  UUID requirementId;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }

  UUID subjectId() {
    return componentId == null ? aircraftId : componentId;
  }

  AssessmentSheet sheet() {
    return new AssessmentSheet(
        id(),
        ledgerSeq(),
        paragraphId,
        paragraphRow,
        revision,
        effectiveOn,
        aircraftId,
        componentId,
        subjectName,
        subjectSerial,
        restsOn.equals(AssessmentSheet.PART),
        Verdict.parse(verdict),
        why,
        lastDay,
        requirementId,
        happenedAt(),
        happenedOn(),
        recordedAt(),
        recordedBy());
  }
}
