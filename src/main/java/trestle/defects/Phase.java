package trestle.defects;

import java.util.Locale;

/** When in a flight, or outside of one, a defect showed. */
public enum Phase {
  PARKED("Parked, before the flight"),
  STARTING("Starting"),
  TAXIING("Taxiing"),
  TAKE_OFF("Take-off"),
  CLIMB("Climb"),
  CRUISE("Cruise"),
  DESCENT("Descent and approach"),
  LANDING("Landing"),
  AFTER_LANDING("After landing"),
  MAINTENANCE("In maintenance");

  private final String shown;

  Phase(String shown) {
    this.shown = shown;
  }

  public String shown() {
    return shown;
  }

  /** As forms and the database write it. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static Phase parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
