package trestle.workshop;

import java.util.List;
import java.util.Locale;
import trestle.web.Option;

/**
 * Where on the aircraft a line is worked: lines are gathered by it, so that a panel is opened once.
 * The groups of an annual or 100-hour inspection (14 CFR 43, appendix D), with the controls apart:
 * those are always inspected by a second person.
 */
public enum Area {
  WHOLE_AIRCRAFT("Whole aircraft"),
  FUSELAGE("Fuselage and hull"),
  CABIN("Cabin and cockpit"),
  ENGINE("Engine and nacelle"),
  ENGINE_CONTROLS("Engine controls"),
  GEAR("Landing gear"),
  WING("Wing and centre section"),
  EMPENNAGE("Empennage"),
  FLIGHT_CONTROLS("Flight controls"),
  PROPELLER("Propeller"),
  RADIO("Radio"),
  OTHER("Everything else");

  /** Common practice, no source. */
  public static final String PROPELLERS =
      "Treat every propeller as live: magneto switches off and their leads earthed, key out, fuel"
          + " off, chocks in; keep out of the arc but for work on the propeller.";

  private final String label;

  Area(String label) {
    this.label = label;
  }

  /**
   * @throws IllegalArgumentException saying what the name "must" do
   */
  public static Area named(String label) {
    for (Area area : values()) {
      if (area.label.equalsIgnoreCase(label) || area.word().equalsIgnoreCase(label)) {
        return area;
      }
    }
    throw new IllegalArgumentException(
        "must name its groups as shown; there is no “" + label + "”");
  }

  public String label() {
    return label;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Whether a second person inspects all work there. */
  public boolean alwaysInspected() {
    return this == FLIGHT_CONTROLS || this == ENGINE_CONTROLS;
  }

  /** What hands near it beware of (common practice, no source), or "". */
  public String caution() {
    return switch (this) {
      case WHOLE_AIRCRAFT, ENGINE, ENGINE_CONTROLS, PROPELLER, OTHER -> PROPELLERS;
      case GEAR ->
          "On jacks: at the points and by the data of the maker, ballast on, nobody aboard.";
      case WING -> "Fuel: ventilate, earth the aircraft, no spark, an extinguisher at hand.";
      case CABIN ->
          "Oxygen: no oil or grease near it, bottles closed; safety pins where there are any.";
      case FLIGHT_CONTROLS -> "Controls move: nobody’s hands in them, and nobody at the stick.";
      default -> "";
    };
  }

  public static Area parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  static List<Option> options() {
    return java.util.Arrays.stream(values())
        .map(area -> new Option(area.word(), area.label()))
        .toList();
  }

  /** Where work on a chapter (JASC or ATA 100) is done. */
  static Area ofChapter(String chapter) {
    return switch (chapter) {
      case "27" -> FLIGHT_CONTROLS;
      case "76" -> ENGINE_CONTROLS;
      case "32" -> GEAR;
      case "57", "28" -> WING;
      case "55" -> EMPENNAGE;
      case "61" -> PROPELLER;
      case "53", "52", "56" -> FUSELAGE;
      case "25", "21", "31", "33", "35" -> CABIN;
      case "22", "23", "34" -> RADIO;
      case "71", "72", "73", "74", "75", "77", "78", "79", "80", "24" -> ENGINE;
      default -> OTHER;
    };
  }
}
