package trestle.standing;

/**
 * One reason, other than a due item, for which an aircraft is held or limited.
 *
 * @param sentence the reason in words
 * @param link the record behind it
 */
public record Ground(Weight weight, String sentence, String link) {

  /**
   * Held: nothing may be flown. Limited: something may not. Permitted: what holds may be flown all
   * the same, on an authority's permit and its conditions.
   */
  public enum Weight {
    PERMITTED,
    HELD,
    LIMITED
  }

  public static Ground held(String sentence, String link) {
    return new Ground(Weight.HELD, sentence, link);
  }

  /** A permit that stands over whatever holds; without a hold it means nothing. */
  public static Ground permitted(String sentence, String link) {
    return new Ground(Weight.PERMITTED, sentence, link);
  }

  public static Ground limited(String sentence, String link) {
    return new Ground(Weight.LIMITED, sentence, link);
  }
}
