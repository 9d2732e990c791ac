package trestle.programme;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/** What sort of work a requirement is. */
public enum RequirementKind {
  INSPECTION("Inspection"),
  SERVICE("Service"),
  LUBRICATION("Lubrication"),
  OVERHAUL("Overhaul"),
  LIFE_LIMIT("Life limit"),
  LIMITATION("Airworthiness limitation"),
  DOCUMENT("Document"),
  DIRECTIVE("Airworthiness directive"),
  OTHER("Other");

  private final String label;

  RequirementKind(String label) {
    this.label = label;
  }

  public static RequirementKind parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  public static List<String> words() {
    return Arrays.stream(values()).map(RequirementKind::word).toList();
  }

  /** The word in the database and in forms. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Whether a directive or bulletin opens such requirements. */
  public boolean isOfDirectives() {
    return this == DIRECTIVE || this == OTHER;
  }

  public String label() {
    return label;
  }

  /**
   * Whether it may be exceeded only where its own text says so: each flight past a directive is a
   * violation of its own (14 CFR 39.9), and variations are not for directives nor airworthiness
   * limitations.
   */
  public boolean allowsNothingOfItself() {
    return this == DIRECTIVE || this == LIFE_LIMIT || this == LIMITATION;
  }
}
