package trestle.standing;

import java.util.Locale;

/** Whether a requirement binds (law, directive, limitation, approved programme) or is advice. */
public enum Force {
  MANDATORY,
  RECOMMENDED;

  /** The word in the database, in forms and on pages. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static Force parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT));
  }
}
