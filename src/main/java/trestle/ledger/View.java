package trestle.ledger;

import java.time.LocalDate;

/**
 * Which facts a read takes: those that happened up to a day, known up to a ledger sequence.
 *
 * @param upTo the last day whose facts count; "today" for a page as at now
 * @param knownTo the last ledger sequence that was known, or null for all that is known now: with
 *     null, "as at 12 March" is how it truly was, later corrections included; with a sequence, how
 *     it was known then
 */
public record View(LocalDate upTo, Long knownTo) {

  /** All that was ever filed, also what is stated to hold from a later day. */
  public static final View EVERYTHING = new View(LocalDate.of(9999, 12, 31), null);

  /** How it truly was at the end of a day, as far as is known now. */
  public static View asAt(LocalDate day) {
    return new View(day, null);
  }

  public boolean knowsEverything() {
    return knownTo == null;
  }

  /** The bound for a query; everything known is the greatest sequence there can be. */
  public long knownBound() {
    return knownTo == null ? Long.MAX_VALUE : knownTo;
  }
}
