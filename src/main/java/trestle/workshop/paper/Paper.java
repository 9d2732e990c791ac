package trestle.workshop.paper;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import trestle.fleet.AircraftSheet;
import trestle.profiles.RuleProfile;
import trestle.web.Shown;
import trestle.workshop.OrderLine;
import trestle.workshop.ReadingSheet;
import trestle.workshop.ReleaseSheet;
import trestle.workshop.Totals;
import trestle.workshop.WorkOrderSheet;

/**
 * All that the papers of one order are printed from.
 *
 * @param totals of the aircraft, then of each engine and propeller: those beside the release, or
 *     while there is none those of now
 * @param headSize how many records the operator's ledger holds
 * @param headRoot its root, 64 hexadecimal digits
 * @param printed when, in the operator's time
 * @param proven of the release; null while there is none
 */
public record Paper(
    WorkOrderSheet sheet,
    AircraftSheet aircraft,
    RuleProfile profile,
    List<Totals.Of> totals,
    String operator,
    long headSize,
    String headRoot,
    String printed,
    Proven proven) {

  public ReleaseSheet release() {
    return sheet.release();
  }

  /** What stands at the foot of each page, first row. */
  public String foot() {
    return foot(sheet.order().no() + ", " + aircraft.registration(), printed, headSize);
  }

  static String foot(String what, String printed, long headSize) {
    return what
        + ". Printed "
        + printed
        + " local. Ledger head: "
        + Shown.plural(headSize, "record")
        + ", root";
  }

  /** "QX-LIF, Skerry 200, serial S-12". */
  public String craft() {
    return craft(aircraft);
  }

  static String craft(AircraftSheet aircraft) {
    return aircraft.registration()
        + ", "
        + aircraft.typeName()
        + ", serial "
        + aircraft.particulars().serial();
  }

  /** The lines that are left open, by authority or with their defect. */
  public List<OrderLine> leftOpen() {
    return sheet.lines().stream().filter(line -> !line.isSigned() && line.isClosed()).toList();
  }

  /** What was read on a line, a kind and component a sentence: "Engine 1, differential …". */
  public List<String> readings(OrderLine line) {
    Map<String, List<String>> said = new LinkedHashMap<>();
    for (ReadingSheet one : line.readings()) {
      String whose =
          totals.stream()
              .filter(of -> one.componentId() != null && one.componentId().equals(of.componentId()))
              .map(of -> of.name() + ", ")
              .findFirst()
              .orElse("");
      said.computeIfAbsent(whose + one.kind().label(), key -> new ArrayList<>())
          .add(one.place() + " " + one.shown());
    }
    return said.entrySet().stream()
        .map(each -> each.getKey() + ": " + String.join("; ", each.getValue()) + ".")
        .toList();
  }

  /** "2 discrepancies". */
  public String discrepancies() {
    return Shown.plural(sheet.release().discrepancies().size(), "discrepancy", "discrepancies");
  }

  public List<OrderLine> withParts() {
    return sheet.lines().stream().filter(line -> !line.parts().isEmpty()).toList();
  }

  /** "Release to service", as the rule profile calls it. */
  public String releaseTitle() {
    String words = profile.words().release();
    return words.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + words.substring(1);
  }
}
