package trestle.apron;

/**
 * A defect that is open, as the pilot's pages say it.
 *
 * @param number "D-231"
 * @param words what was reported
 * @param repeat how often it was there before, where a person has confirmed that; or ""
 * @param limitation what may not be done with it, or ""
 * @param placard where and what it says, or ""
 * @param until when its deferral runs out, or ""
 */
record OpenDefect(
    String number,
    String words,
    String state,
    String repeat,
    String limitation,
    String placard,
    String until,
    String link) {

  /** Whether somebody has said how it may be flown with. */
  public boolean isDecided() {
    return !(limitation + placard + until).isEmpty();
  }

  /** "A confirmed repeat: reported 3 times", or "". */
  static String repeated(Integer earlier) {
    return earlier == null ? "" : "A confirmed repeat: reported " + (earlier + 1) + " times";
  }

  /** Whether there is more to it than its words and how it stands. */
  public boolean saysMore() {
    return isDecided() || !repeat.isEmpty();
  }

  public String sentence() {
    StringBuilder sentence = new StringBuilder(number + ": " + words + " (" + state + ")");
    for (String more : new String[] {repeat, limitation, placard, until}) {
      sentence.append(more.isEmpty() ? "" : "; " + more);
    }
    return sentence.toString();
  }
}
