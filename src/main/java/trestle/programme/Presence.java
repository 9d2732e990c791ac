package trestle.programme;

import java.util.Set;

/**
 * On which aircraft a requirement applies: where a modification is embodied, or where it is not.
 *
 * @param modification its code in the aircraft's configuration; "" for every aircraft
 * @param present whether it must be embodied, or must not
 */
public record Presence(String modification, boolean present) {
  public static final Presence ANYWHERE = new Presence("", true);

  public static Presence where(String modification) {
    return new Presence(modification, true);
  }

  public static Presence whereNot(String modification) {
    return new Presence(modification, false);
  }

  public boolean isAnywhere() {
    return modification.isEmpty();
  }

  /**
   * @param codes of what is embodied; null where that is not known, as of a part on a shelf: then a
   *     requirement is not dropped
   */
  boolean holds(Set<String> codes) {
    return isAnywhere() || codes == null || codes.contains(modification) == present;
  }

  /** "only where FLOATS-2 is embodied", or "". */
  public String words() {
    return isAnywhere()
        ? ""
        : "only where " + modification + (present ? " is embodied" : " is not embodied");
  }
}
