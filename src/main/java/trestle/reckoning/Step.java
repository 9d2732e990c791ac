package trestle.reckoning;

/**
 * One step of the way to a due point that counts from last done: the baseline, or what one doing
 * did to it.
 *
 * @param anchor what it counts from after this step; {@link Scale#UNKNOWN} where not known
 * @param k how many scheduled points from there are used up
 * @param due the next due point after this step; {@link Scale#UNKNOWN} where not known
 * @param overrun whether this doing came after due and tolerance
 */
public record Step(Why why, long anchor, long k, long due, boolean overrun) {

  /** Why the next interval counts from where it does. */
  public enum Why {
    /** Where counting starts. */
    BASELINE,
    /** The first doing, where there is no baseline. */
    FIRST_DONE,
    /** Within the window: from the due point. */
    WITHIN_WINDOW,
    /** From when it was done. */
    FROM_DONE,
    /** Done late, and the schedule kept. */
    KEPT_SCHEDULE,
    /** A quantity that is needed is not known. */
    UNKNOWN
  }
}
