package trestle.apron;

import java.util.List;

/**
 * Lists to begin with, in our own words after what is common practice (no source): an operator
 * replaces them by what its manuals ask for, and the pages say so.
 */
final class ExampleLists {
  private static final List<String> AFTER_MAINTENANCE =
      List.of(
          "Controls: full and free, and each surface moves in the correct sense",
          "Trims: move both ways in the correct sense, then back to neutral",
          "Panels, cowlings, caps: closed and fastened, nothing left open",
          "Tools, rags, covers, locks: none left on or in the aircraft",
          "Oil and fluids: levels right, no leaks after the first run",
          "Papers: the release seen, and what it leaves open");

  private static final List<String> WALK_ROUND =
      List.of(
          "Cockpit: papers, switches off, controls unlocked, fuel as needed",
          "Left wing: skin, flap, aileron, hinges, light, pitot cover off",
          "Left tank: cap, quantity by dip, drain sample clear",
          "Left main gear: tyre, brake, leg, no leaks",
          "Engine: oil level, no leaks, cowling fastened, air intake clear",
          "Propeller: nicks, security, spinner; treat it as live",
          "Nose gear: tyre, leg, steering",
          "Windscreen: clean, no cracks",
          "Right main gear: tyre, brake, leg, no leaks",
          "Right tank: cap, quantity by dip, drain sample clear",
          "Right wing: skin, flap, aileron, hinges, light",
          "Fuselage: skin, static ports clear, aerials, doors and lockers shut",
          "Tail: skin, elevator, rudder, trim tab, hinges, light",
          "Loads: stowed and fastened, nothing loose");

  private ExampleLists() {}

  static CheckListSheet of(CheckListSheet.Kind kind) {
    List<String> lines = kind == CheckListSheet.Kind.WALK_ROUND ? WALK_ROUND : AFTER_MAINTENANCE;
    return new CheckListSheet(kind, "", lines, null, null, null);
  }
}
