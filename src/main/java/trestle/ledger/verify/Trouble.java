package trestle.ledger.verify;

/**
 * The first thing found that disagrees.
 *
 * @param seq the line at which it shows; 0 where it is about the ledger as a whole
 * @param sentence which record it is, and how it disagrees
 */
public record Trouble(long seq, String sentence) {}
