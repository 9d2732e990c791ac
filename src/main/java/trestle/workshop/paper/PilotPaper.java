package trestle.workshop.paper;

import trestle.fleet.AircraftSheet;
import trestle.workshop.PilotWorks;

/**
 * What the log entry of a pilot's own work is printed from.
 *
 * @param statement as it was signed
 * @param foot what stands at the foot of the page, first row
 * @param headRoot the root of the operator's ledger
 */
public record PilotPaper(
    PilotWorks.Done work,
    AircraftSheet aircraft,
    String statement,
    String operator,
    String foot,
    String headRoot,
    Proven proven) {

  public String craft() {
    return Paper.craft(aircraft);
  }
}
