package trestle.web;

import java.util.Locale;

/** What a member may do in one operator; a person may have several, and in several operators. */
public enum Role {
  OWNER,
  CONTROLLER,
  PILOT,
  ENGINEER,
  AUDITOR;

  /** The word in the database, in the table of roles and in access annotations. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static Role parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT));
  }
}
