package trestle.directives;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * What somebody judges of a paragraph for one aircraft or component.
 *
 * @param paragraphRow the paragraph as the person saw it; another row meanwhile makes this stale
 * @param aircraftId the aircraft it is about; of no account for a component
 * @param componentId null when it is about the aircraft
 * @param ofPart of a component: the judgement rests on the part itself and follows it
 * @param why needed where it does not apply or is waived
 * @param lastDay of a waiver
 */
public record NewAssessment(
    UUID paragraphId,
    UUID paragraphRow,
    UUID aircraftId,
    UUID componentId,
    Verdict verdict,
    boolean ofPart,
    String why,
    LocalDate lastDay,
    Instant at,
    UUID formKey) {

  public static NewAssessment ofAircraft(
      ParagraphSheet paragraph, UUID aircraft, Verdict verdict, String why, Instant at) {
    return new NewAssessment(
        paragraph.id(), paragraph.rowId(), aircraft, null, verdict, false, why, null, at, null);
  }

  /** Of a component as it is fitted: to be judged again when it is fitted elsewhere. */
  public static NewAssessment asFitted(
      ParagraphSheet paragraph, UUID component, Verdict verdict, String why, Instant at) {
    return new NewAssessment(
        paragraph.id(), paragraph.rowId(), null, component, verdict, false, why, null, at, null);
  }

  /** Of the component itself, wherever it is fitted. */
  public NewAssessment followingThePart() {
    return new NewAssessment(
        paragraphId,
        paragraphRow,
        aircraftId,
        componentId,
        verdict,
        true,
        why,
        lastDay,
        at,
        formKey);
  }

  public NewAssessment upTo(LocalDate day) {
    return new NewAssessment(
        paragraphId, paragraphRow, aircraftId, componentId, verdict, ofPart, why, day, at, formKey);
  }
}
