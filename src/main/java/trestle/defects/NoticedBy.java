package trestle.defects;

import java.util.Locale;

/** How a defect came to notice. */
public enum NoticedBy {
  WARNING("A warning or an indication"),
  LOOKING("By looking"),
  SENSES("Heard, felt or smelt"),
  HANDLING("How it handled or worked"),
  INSPECTION("At an inspection"),
  TOLD("Somebody told me");

  private final String shown;

  NoticedBy(String shown) {
    this.shown = shown;
  }

  public String shown() {
    return shown;
  }

  /** As forms and the database write it. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static NoticedBy parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
