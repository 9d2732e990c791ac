package trestle.apron;

/**
 * A defect that is open, as the pilot's pages say it.
 *
 * @param number "D-231"
 * @param words what was reported
 * @param limitation what may not be done with it, or ""
 * @param placard where and what it says, or ""
 * @param until when its deferral runs out, or ""
 */
record OpenDefect(
    String number,
    String words,
    String state,
    String limitation,
    String placard,
    String until,
    String link) {

  /** Whether somebody has said how it may be flown with. */
  public boolean isDecided() {
    return !(limitation + placard + until).isEmpty();
  }

  public String sentence() {
    StringBuilder sentence = new StringBuilder(number + ": " + words + " (" + state + ")");
    for (String more : new String[] {limitation, placard, until}) {
      sentence.append(more.isEmpty() ? "" : "; " + more);
    }
    return sentence.toString();
  }
}
