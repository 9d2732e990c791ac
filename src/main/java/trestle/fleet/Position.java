package trestle.fleet;

import java.util.ArrayList;
import java.util.List;
import trestle.web.Refusal;

/**
 * Where a serial-numbered part belongs on one aircraft.
 *
 * @param code short and stable: {@code engine-1}
 * @param required the aircraft must not fly while nothing is fitted there
 */
public record Position(String code, PartKind kind, String label, boolean required) {

  public Position {
    code = code.strip();
    label = label.strip();
  }

  /** One engine, one propeller. */
  public static List<Position> single() {
    return List.of(
        new Position("engine", PartKind.ENGINE, "Engine", true),
        new Position("propeller", PartKind.PROPELLER, "Propeller", true));
  }

  /** Left and right engine and propeller; number one is on the left. */
  public static List<Position> twin() {
    return List.of(
        new Position("engine-1", PartKind.ENGINE, "Engine 1, left", true),
        new Position("propeller-1", PartKind.PROPELLER, "Propeller 1, left", true),
        new Position("engine-2", PartKind.ENGINE, "Engine 2, right", true),
        new Position("propeller-2", PartKind.PROPELLER, "Propeller 2, right", true));
  }

  List<Refusal.Reason> faults() {
    List<Refusal.Reason> faults = new ArrayList<>();
    if (!code.matches("[a-z][a-z0-9-]{0,39}")) {
      faults.add(
          new Refusal.Reason(
              "code", "Code must be small letters, digits and hyphens, like engine-1."));
    }
    if (label.isEmpty() || label.length() > 60) {
      faults.add(new Refusal.Reason("label", "Name must be 1 to 60 characters."));
    }
    return faults;
  }
}
