package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.standing.AircraftStanding;
import trestle.standing.Standings;
import trestle.web.AsAt;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What an engineer has to look at: open defects and events, held aircraft first. */
@ApplicationScoped
public class Worklist {
  @Inject OpenDefects open;
  @Inject AbnormalEvents events;
  @Inject Repeats repeats;
  @Inject Standings standings;
  @Inject Fleet fleet;

  /**
   * One aircraft's part of the list.
   *
   * @param standing "held", "limited" or "clear", by all that is recorded of it
   */
  public record Group(
      AircraftSheet aircraft,
      String standing,
      List<DefectWords.Row> defects,
      List<EventSheet> events) {
    public int size() {
      return defects.size();
    }

    private int order() {
      return List.of("held", "limited", "clear").indexOf(standing);
    }
  }

  /** The aircraft that have something open: held ones first, then limited ones. */
  @Reading
  public List<Group> of(Viewer viewer, AsAt at) {
    View view = at.view();
    List<AircraftSheet> aircraft = fleet.sheets(viewer, view);
    List<UUID> ids = aircraft.stream().map(AircraftSheet::id).toList();
    Map<UUID, List<DefectLine>> lines = open.of(viewer, ids, view);
    Map<UUID, List<EventSheet>> waiting = events.open(viewer, ids, view);
    Map<UUID, AircraftStanding> standing =
        at.isNow() ? standings.now(viewer, ids, at.today()) : standings.asAt(viewer, ids, view);
    Map<UUID, Integer> earlier =
        earlier(viewer, at, lines.values().stream().flatMap(List::stream).toList());
    List<Group> groups = new ArrayList<>();
    for (AircraftSheet one : aircraft) {
      if (lines.containsKey(one.id()) || waiting.containsKey(one.id())) {
        groups.add(
            new Group(
                one,
                standing.get(one.id()).standing().word().word(),
                rows(lines.getOrDefault(one.id(), List.of()), earlier, at.day()),
                waiting.getOrDefault(one.id(), List.of())));
      }
    }
    groups.sort(Comparator.comparingInt(Group::order));
    return groups;
  }

  /** The open defects of one aircraft. */
  @Reading
  public List<DefectWords.Row> ofAircraft(Viewer viewer, AircraftSheet aircraft, AsAt at) {
    List<DefectLine> lines =
        open.of(viewer, List.of(aircraft.id()), at.view()).getOrDefault(aircraft.id(), List.of());
    return rows(lines, earlier(viewer, at, lines), at.day());
  }

  /** Which came back is a matter of what is known now: of a past day nothing is said. */
  private Map<UUID, Integer> earlier(Viewer viewer, AsAt at, List<DefectLine> lines) {
    return at.isPast()
        ? Map.of()
        : repeats.counts(viewer, lines.stream().map(DefectLine::entryId).toList());
  }

  private static List<DefectWords.Row> rows(
      List<DefectLine> lines, Map<UUID, Integer> earlier, LocalDate today) {
    return lines.stream()
        .sorted(Comparator.comparingInt(DefectLine::order))
        .map(line -> DefectWords.open(line, earlier.getOrDefault(line.entryId(), 0), today))
        .toList();
  }
}
