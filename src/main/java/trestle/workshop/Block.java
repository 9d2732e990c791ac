package trestle.workshop;

/**
 * One reason for which the aircraft is not released.
 *
 * @param sentence what is missing, a whole sentence
 * @param link where it is put right
 */
public record Block(Why why, String sentence, String link) {

  public enum Why {
    LINE_OPEN,
    INSPECTION_MISSING,
    EVIDENCE_MISSING,
    FINDING_OPEN,
    POSITION_EMPTY,
    NOT_APPROVED,
    NOTHING_SIGNED
  }
}
