package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.ledger.View;
import trestle.reckoning.LimitReckoning;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.standing.LastDone;
import trestle.web.Reading;
import trestle.web.Viewer;

/** An aircraft's documents that expire: each a requirement by the calendar, with its paper. */
@ApplicationScoped
public class Documents {
  @Inject DueItems dueItems;
  @Inject ComplianceRecords complianceRecords;

  /**
   * One document, all in words.
   *
   * @param issued when the one that holds was filed, or ""
   * @param papers its files
   */
  public record Line(
      DueItem item, String state, String issued, String expires, String left, List<Paper> papers) {

    public boolean isSpent() {
      return item.reckoning().spent();
    }
  }

  /** In the order in which they expire. */
  @Reading
  public List<Line> of(Viewer viewer, AircraftSheet aircraft, View view) {
    List<DueItem> items =
        dueItems
            .dueItems(viewer, List.of(aircraft.id()), view)
            .getOrDefault(aircraft.id(), List.of())
            .stream()
            .filter(item -> item.kind().equals(RequirementKind.DOCUMENT.word()))
            .sorted(AircraftStanding.BITES_FIRST)
            .toList();
    Map<UUID, List<Paper>> papers =
        complianceRecords.papers(
            viewer,
            items.stream()
                .filter(item -> item.lastDone() != null)
                .map(item -> item.lastDone().complianceId())
                .toList());
    InWords words = new InWords(aircraft.shownAs());
    return items.stream().map(item -> line(item, papers, words)).toList();
  }

  private static Line line(DueItem item, Map<UUID, List<Paper>> papers, InWords words) {
    LastDone last = item.lastDone();
    LimitReckoning limit = item.controlling();
    return new Line(
        item,
        Explained.words(item.state()),
        last == null || last.reading().on() == null ? "" : InWords.date(last.reading().on()),
        limit == null ? "" : words.due(limit),
        limit == null ? "" : words.left(limit),
        last == null ? List.of() : papers.getOrDefault(last.complianceId(), List.of()));
  }
}
