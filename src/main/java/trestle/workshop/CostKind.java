package trestle.workshop;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import trestle.web.Option;

/** What is paid for. */
public enum CostKind {
  LABOUR("Labour"),
  PARTS("Parts and materials"),
  OUTSIDE("Outside work");

  private final String label;

  CostKind(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  static CostKind parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT));
  }

  static List<Option> options() {
    return Arrays.stream(values()).map(kind -> new Option(kind.word(), kind.label)).toList();
  }
}
