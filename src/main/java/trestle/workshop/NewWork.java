package trestle.workshop;

import java.time.Instant;
import java.util.UUID;
import trestle.defects.Judgement;

/**
 * What was done about one line, to be signed.
 *
 * @param lineRowId the row of the line that the signer read
 * @param words what was done, what was found, or why it does not apply
 * @param performedBy whoever did it with their own hands, where not the signer; else ""
 * @param finding what was found, where something was; else null
 * @param bookId into whose logbook it is entered: the aircraft's own id, or an engine's or
 *     propeller's; null where nobody said
 */
public record NewWork(
    UUID lineRowId,
    Outcome outcome,
    String words,
    String dataReference,
    String dataRevision,
    Instant at,
    String performedBy,
    Finding finding,
    UUID bookId) {

  public NewWork(
      UUID lineRowId,
      Outcome outcome,
      String words,
      String dataReference,
      String dataRevision,
      Instant at,
      String performedBy,
      Finding finding) {
    this(lineRowId, outcome, words, dataReference, dataRevision, at, performedBy, finding, null);
  }

  public NewWork {
    words = plain(words);
    dataReference = plain(dataReference);
    dataRevision = plain(dataRevision);
    performedBy = plain(performedBy);
  }

  /**
   * A finding becomes a line of this order, or a defect of its own.
   *
   * @param judgement of a defect: whether the aircraft can fly with it; null for a line
   */
  public record Finding(String words, Area area, Judgement judgement) {
    public Finding {
      words = plain(words);
    }

    public boolean isDefect() {
      return judgement != null;
    }
  }

  public static NewWork done(UUID lineRowId, String words, String data, Instant at) {
    return new NewWork(lineRowId, Outcome.DONE, words, data, "", at, "", null);
  }

  public static NewWork notApplicable(UUID lineRowId, String why, Instant at) {
    return new NewWork(lineRowId, Outcome.NOT_APPLICABLE, why, "", "", at, "", null);
  }

  public static NewWork found(
      UUID lineRowId, String words, String data, Instant at, Finding finding) {
    return new NewWork(lineRowId, Outcome.FINDING, words, data, "", at, "", finding);
  }

  private static String plain(String words) {
    return words == null ? "" : words.strip();
  }
}
