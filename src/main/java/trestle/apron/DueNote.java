package trestle.apron;

/**
 * What falls due, as the pilot's pages say it.
 *
 * @param left "24.7 h or 187 days"
 * @param due "6,494.0 h or 31 May 2027"
 * @param outOfPhase whether it falls due before the next inspection does
 */
record DueNote(String title, String left, String due, String link, boolean outOfPhase) {}
