package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.flights.FiledWith;
import trestle.web.Reading;
import trestle.web.Viewer;

/** The defects that were reported with flights, for the journey log, with how they now stand. */
@ApplicationScoped
class DefectsOfFlights implements FiledWith {
  @Inject DefectBook book;

  @Override
  @Reading
  public Map<UUID, List<Line>> of(Viewer viewer, Collection<UUID> flightEntryIds) {
    Map<UUID, List<DefectSheet>> defects = book.ofFlights(viewer, flightEntryIds);
    List<UUID> ids =
        defects.values().stream().flatMap(List::stream).map(DefectSheet::entryId).toList();
    Map<UUID, DefectBook.Entry> entries = book.entries(viewer, ids);
    Map<UUID, List<Line>> lines = new HashMap<>();
    defects.forEach(
        (flight, sheets) ->
            lines.put(
                flight,
                sheets.stream()
                    .map(sheet -> line(sheet, entries.get(sheet.entryId()).isOpen()))
                    .toList()));
    return lines;
  }

  private static Line line(DefectSheet sheet, boolean open) {
    return new Line(
        "Defect " + sheet.no(),
        ", " + sheet.brief() + (open ? ", open" : ", put right"),
        sheet.link());
  }
}
