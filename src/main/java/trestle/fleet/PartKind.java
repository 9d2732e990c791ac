package trestle.fleet;

import java.util.Locale;

/** What kind of serial-numbered part a component is, and a position takes. */
public enum PartKind {
  ENGINE,
  PROPELLER,
  OTHER;

  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static PartKind parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT));
  }
}
