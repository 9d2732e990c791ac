package trestle.defects;

import java.util.Locale;

/** What the person who found a defect thinks of it. */
public enum Judgement {
  MUST_NOT_FLY("Must not fly"),
  CAN_FLY("Can fly");

  private final String shown;

  Judgement(String shown) {
    this.shown = shown;
  }

  public String shown() {
    return shown;
  }

  /** As forms and the database write it. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static Judgement parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
