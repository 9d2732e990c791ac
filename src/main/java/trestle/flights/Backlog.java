package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Fleet.OpeningSheet;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * Files flights of the past by the hundred, each as its pilot handed it in. What is reckoned from
 * them (hours, breaks) is left as it was: {@link JourneyLog#rebuild} each aircraft before anybody
 * asks for it.
 */
@ApplicationScoped
public class Backlog {
  @Inject Fleet fleet;
  @Inject Revisions revisions;
  @Inject Ledger ledger;

  /** What a pilot handed in at a time: one or more flights of one aircraft. */
  public record Sheet(Viewer pilot, Instant handedIn, UUID aircraftId, List<FlightDraft> flights) {}

  /**
   * Files sheets in the order given, which is that in which they were handed in.
   *
   * @throws Refusal when a report is wrong in itself; nothing is filed then
   */
  @Filing
  public void file(Viewer viewer, List<Sheet> sheets) {
    Set<UUID> aircraft = new LinkedHashSet<>();
    sheets.forEach(sheet -> aircraft.add(sheet.aircraftId()));
    revisions.bump(viewer, aircraft);
    Map<UUID, List<OpeningSheet>> openings = fleet.openings(viewer, aircraft, View.EVERYTHING);
    List<Ledger.Filing> filings = new ArrayList<>();
    for (Sheet sheet : sheets) {
      filings.add(filing(sheet, openings.getOrDefault(sheet.aircraftId(), List.of())));
    }
    ledger.file(viewer.operatorId(), filings);
  }

  private static Ledger.Filing filing(Sheet sheet, List<OpeningSheet> openings) {
    List<Flight> rows = new ArrayList<>();
    for (FlightDraft draft : sheet.flights()) {
      refuse(draft.faults(sheet.handedIn()));
      refuse(Counted.leftOut(draft, openings));
      rows.add(Flight.of(sheet.aircraftId(), draft, sheet.pilot().dateOf(draft.landing())));
    }
    return new Ledger.Filing(act(sheet), rows);
  }

  private static void refuse(List<Refusal.Reason> faults) {
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private static Act act(Sheet sheet) {
    return new Act(sheet.pilot().operatorId(), sheet.pilot().personId(), sheet.handedIn());
  }
}
