package trestle.directives;

import java.util.Locale;

/** What was judged: it applies, it does not (with the reason), or it is waived up to a day. */
public enum Verdict {
  APPLIES("Applies"),
  DOES_NOT("Does not apply"),
  WAIVED("Waived");

  private final String shown;

  Verdict(String shown) {
    this.shown = shown;
  }

  public String shown() {
    return shown;
  }

  /** The word in the database and in forms. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static Verdict parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
