package trestle.overview;

import java.util.ArrayList;
import java.util.List;
import trestle.fleet.AircraftSheet;

/**
 * The state of one aircraft's record in one view, in tables: what 14 CFR 91.417(a)(2) and M.A.305
 * ask to be kept and handed over. All in words, so that screen, paper and file say the same.
 */
public record StatusSheet(AircraftSheet sheet, String asAt, List<Part> parts) {

  public StatusSheet {
    parts = List.copyOf(parts);
  }

  /**
   * One table.
   *
   * @param about what it holds, in a sentence, or ""
   * @param nothing what is said where it has no row
   */
  public record Part(
      String title, String about, List<String> heads, List<List<String>> rows, String nothing) {
    public Part {
      heads = List.copyOf(heads);
      rows = List.copyOf(rows);
    }
  }

  /** Each table under its title, with a blank row between two. */
  List<List<String>> lines() {
    List<List<String>> lines = new ArrayList<>();
    lines.add(List.of(sheet.registration(), sheet.typeName(), sheet.particulars().serial()));
    lines.add(List.of("As at", asAt));
    for (Part part : parts) {
      lines.add(List.of(""));
      lines.add(List.of(part.title()));
      if (part.rows().isEmpty()) {
        lines.add(List.of(part.nothing()));
      } else {
        lines.add(part.heads());
        lines.addAll(part.rows());
      }
    }
    return lines;
  }
}
