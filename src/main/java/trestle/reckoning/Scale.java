package trestle.reckoning;

/**
 * What a limit is measured along: a {@link Counter}, or the {@link Calendar}. On either, a point is
 * a plain {@code long} (seconds, a count, an epoch day), so that one mechanism serves both.
 */
public sealed interface Scale permits Counter, Calendar {

  /** A point that is not known. It is never zero, and nothing is ever computed from it. */
  long UNKNOWN = Long.MIN_VALUE;

  /**
   * The point of a reading on this scale, or {@link #UNKNOWN} where the reading does not give it.
   */
  long pointOf(Reading reading);
}
