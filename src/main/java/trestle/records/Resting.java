package trestle.records;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.History;
import trestle.ledger.Line;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * What somebody certified or signed of an aircraft after a record of it was filed: it may have
 * rested on it.
 */
@ApplicationScoped
class Resting {
  static final int MOST = 25;

  /** What people certify and sign, reading the aircraft's record as it stood. */
  private static final List<String> KINDS =
      List.of(
          "compliance",
          "line-work",
          "line-inspection",
          "line-deferral",
          "work-release",
          "pilot-work",
          "rectification",
          "event-inspection",
          "deferral",
          "deferral-extension",
          "granted-extension",
          "pre-flight-inspection",
          "acceptance",
          "flight-permit");

  @Inject History ledger;
  @Inject Histories histories;

  /** On the record of one aircraft; of what was taken away or replaced since, nothing. */
  @Reading
  public List<Histories.Entry> on(Viewer viewer, UUID recordId) {
    return on(viewer, recordId, List.of());
  }

  /**
   * One more than {@link #MOST} where there are more.
   *
   * @param aircraftIds besides the one the record is of
   */
  @Reading
  public List<Histories.Entry> on(Viewer viewer, UUID recordId, Collection<UUID> aircraftIds) {
    Line line = histories.line(viewer, recordId);
    Set<UUID> aircraft = new HashSet<>(aircraftIds);
    if (line.aircraftId() != null) {
      aircraft.add(line.aircraftId());
    }
    List<Line> later = ledger.after(viewer.operatorId(), aircraft, KINDS, line.seq(), MOST + 1);
    return histories.entries(viewer, later).stream()
        .filter(entry -> !entry.isReplaced() && !entry.takesAway())
        .toList();
  }
}
