package trestle.fleet;

import java.util.Locale;

/** What happens to a component besides fitting, removal and overhaul. */
public enum ComponentEventKind {
  SENT_OUT("Sent out"),
  RETURNED("Returned"),
  REPAIRED("Repaired"),
  INSPECTED("Inspected"),
  REBUILT("Rebuilt"),
  UNSERVICEABLE("Found unserviceable"),
  SERVICEABLE("Found serviceable"),
  RETIRED("Retired");

  private final String label;

  ComponentEventKind(String label) {
    this.label = label;
  }

  public String label() {
    return label;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static ComponentEventKind parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  /** The field that this kind can't do without, or null. */
  String needs() {
    return switch (this) {
      case SENT_OUT -> "whom";
      case RETURNED, REBUILT -> "reference";
      case UNSERVICEABLE, RETIRED -> "why";
      case REPAIRED, INSPECTED, SERVICEABLE -> null;
    };
  }

  /** Whether it can only be so of a part that is fitted nowhere. */
  boolean onTheShelfOnly() {
    return this == SENT_OUT || this == RETURNED || this == UNSERVICEABLE || this == RETIRED;
  }
}
