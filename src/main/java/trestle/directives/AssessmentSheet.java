package trestle.directives;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * What was judged of one paragraph for one aircraft or component, as both were then.
 *
 * @param revision of the directive, as printed
 * @param aircraftId the aircraft, or what the component was fitted to; null for one on the shelf
 * @param componentId null when the subject is the aircraft
 * @param ofPart the judgement rests on the part itself and follows it wherever it is fitted
 * @param lastDay of a waiver
 * @param requirementId what it opened, or null
 */
public record AssessmentSheet(
    UUID id,
    long sequence,
    UUID paragraphId,
    UUID paragraphRow,
    String revision,
    LocalDate effectiveOn,
    UUID aircraftId,
    UUID componentId,
    String subjectName,
    String subjectSerial,
    boolean ofPart,
    Verdict verdict,
    String why,
    LocalDate lastDay,
    UUID requirementId,
    Instant at,
    LocalDate on,
    Instant recordedAt,
    UUID recordedBy) {
  static final String PART = "part";
  static final String INSTALLATION = "installation";

  public UUID subjectId() {
    return componentId == null ? aircraftId : componentId;
  }
}
