package trestle.profiles;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * What a pilot usually may do by themselves: small work without complex assembly (14 CFR 43,
 * appendix A, paragraph (c), shortened and from memory). A rule profile has a list of its own.
 */
public enum PilotTask {
  TYRES("Tyres taken off, put on, repaired"),
  STRUTS("Shock struts serviced with oil or air"),
  WHEEL_BEARINGS("Wheel bearings cleaned and greased"),
  SAFETYING("Safety wire or cotter keys replaced"),
  LUBRICATION("Lubrication that takes no disassembly but of covers, cowlings, fairings"),
  HYDRAULIC_FLUID("Hydraulic fluid replenished"),
  FINISH("Decorative finish or preservative renewed"),
  UPHOLSTERY("Upholstery and furnishings repaired"),
  BELTS_AND_SEATS("Seat belts or seats replaced by approved ones"),
  BULBS("Bulbs, reflectors and lenses of position and landing lights"),
  SPARK_PLUGS("Spark plugs cleaned, gapped, replaced"),
  HOSES("Hoses replaced, but no hydraulic ones"),
  FILTERS("Fuel and oil strainers and filters cleaned or replaced, oil changed"),
  BATTERY("Battery serviced or replaced"),
  NAVIGATION_DATABASE("Navigation database updated");

  private final String label;

  PilotTask(String label) {
    this.label = label;
  }

  /** The most that one task of a list has. */
  public static final int MOST_LETTERS = 120;

  /** The usual list, in words. */
  public static List<String> labels() {
    return Arrays.stream(values()).map(task -> task.label).toList();
  }

  private String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The words for what a record says: older ones have a code of this list. */
  public static String said(String kept) {
    return Arrays.stream(values())
        .filter(task -> task.word().equals(kept))
        .map(task -> task.label)
        .findFirst()
        .orElse(kept);
  }
}
