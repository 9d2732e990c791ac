package trestle.workshop.paper;

import java.util.List;
import trestle.workshop.OrderLine;
import trestle.workshop.Totals;

/**
 * One entry for one logbook: the airframe's, or that of an engine or a propeller.
 *
 * @param of whose book it is, with its totals when the order was closed
 * @param inspections what was inspected, each with its own day and hours
 * @param work the other work, in the order of its lines
 */
record LogEntry(Totals.Of of, List<Inspected> inspections, List<OrderLine> work) {

  /**
   * @param extent the groups that were looked at, and how many tasks each had; "" without tasks
   * @param hours total time in service of the aircraft when it was signed
   */
  record Inspected(OrderLine line, String extent, String hours) {}

  public boolean isAirframe() {
    return of.componentId() == null;
  }

  /** "Airframe log", "Engine log", "Propeller log". */
  public String title() {
    return switch (of.kind()) {
      case "engine" -> "Engine log";
      case "propeller" -> "Propeller log";
      default -> "Airframe log";
    };
  }

  public boolean isEmpty() {
    return inspections.isEmpty() && work.isEmpty();
  }
}
