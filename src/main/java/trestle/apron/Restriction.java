package trestle.apron;

/**
 * What an open deferral does not allow.
 *
 * @param forbids {@code hire}, {@code IFR}, {@code night} or words of its own
 * @param what the record, as a page names it
 * @param about continues the sentence
 */
record Restriction(String forbids, String what, String about, String link) {}
