package trestle.fleet;

import java.util.Locale;

/** Whether a part number is of serial-numbered parts, of standard parts, or of a material. */
public enum PartClass {
  COMPONENT("Component"),
  STANDARD_PART("Standard part"),
  MATERIAL("Material");

  private final String label;

  PartClass(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static PartClass parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
