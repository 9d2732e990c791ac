package trestle.apron;

/**
 * What stands against a trip, or what should be known of it.
 *
 * @param leg the leg it concerns, 0 for the whole trip
 * @param what what it is, which links to the record behind it
 * @param about continues the sentence, with its own punctuation
 */
record TripFinding(Weight weight, int leg, String what, String about, String link) {

  /** In the order in which a page lists them. */
  enum Weight {
    /** It may not be flown so, from this leg on. */
    AGAINST,
    /** Whether it lasts can't be told. */
    UNKNOWN,
    /** It lasts, but only in a tolerance. */
    TOLERANCE,
    /** Recommended work would fall due. */
    ADVICE
  }

  public boolean isAgainst() {
    return weight == Weight.AGAINST;
  }

  public boolean isUnknown() {
    return weight == Weight.UNKNOWN;
  }

  public String sentence() {
    return what + about;
  }
}
