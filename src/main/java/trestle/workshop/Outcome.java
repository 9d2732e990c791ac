package trestle.workshop;

import java.util.Locale;

/** What came of a line. */
public enum Outcome {
  DONE("Done"),
  FINDING("Done, with a finding"),
  NOT_APPLICABLE("Not applicable");

  private final String label;

  Outcome(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static Outcome parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
