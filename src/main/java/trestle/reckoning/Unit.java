package trestle.reckoning;

/** What a counter counts in: hours (kept in seconds) or whole numbers. */
public enum Unit {
  HOURS,
  COUNT;

  /** The most that may be stated: 10,000,000 h, or 10,000,000. */
  public static final long MOST_COUNT = 10_000_000L;

  /**
   * Reads an amount that is not negative and at most 10,000,000.
   *
   * @throws IllegalArgumentException whose message is a sentence for the person who wrote it
   */
  public long parse(String text) {
    return this == HOURS ? Hours.parse(text).seconds() : count(text);
  }

  /** The text of an amount, exact; negative with a minus sign in front. */
  public String show(long units) {
    return this == HOURS ? new Hours(units).toString() : Long.toString(units);
  }

  long most() {
    return this == HOURS ? Hours.MOST.seconds() : MOST_COUNT;
  }

  private static long count(String text) {
    if (!text.matches("[0-9]{1,8}")) {
      throw new IllegalArgumentException(
          text.startsWith("-") ? "must not be negative" : "must be a whole number such as 250");
    }
    long count = Long.parseLong(text);
    if (count > MOST_COUNT) {
      throw new IllegalArgumentException("must be at most 10,000,000");
    }
    return count;
  }
}
