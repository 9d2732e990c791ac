package trestle.workshop.paper;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.HexFormat;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.Act;
import trestle.ledger.Heads;
import trestle.ledger.Inclusion;
import trestle.ledger.Line;
import trestle.ledger.Lines;
import trestle.ledger.PrintedProof;
import trestle.ledger.Proofs;
import trestle.ledger.SignedHead;
import trestle.ledger.View;
import trestle.profiles.RuleProfiles;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Shown;
import trestle.web.Viewer;
import trestle.workshop.OrderBook;
import trestle.workshop.PilotWorks;
import trestle.workshop.ReleaseSheet;
import trestle.workshop.Totals;
import trestle.workshop.WorkOrderSheet;

/** Reads what the papers of an order are printed from, all of it at one moment of the ledger. */
@ApplicationScoped
public class Papers {
  @Inject OrderBook book;
  @Inject Fleet fleet;
  @Inject RuleProfiles profiles;
  @Inject Totals totals;
  @Inject Heads heads;
  @Inject Proofs proofs;
  @Inject Lines lines;
  @Inject PilotWorks pilots;

  /**
   * @throws NotHere when the operator has no such order
   */
  @Reading
  public Paper of(Viewer viewer, UUID orderId, Instant now) {
    WorkOrderSheet sheet = book.order(viewer, orderId);
    ReleaseSheet release = sheet.release();
    UUID aircraft = sheet.order().aircraftId();
    SignedHead head = heads.signed(new Act(viewer.operatorId(), viewer.personId(), now));
    return new Paper(
        sheet,
        fleet.sheet(viewer, aircraft, View.EVERYTHING),
        profiles.of(
            viewer, aircraft, View.asAt(release == null ? viewer.dateOf(now) : release.on())),
        release == null ? totals.at(viewer, aircraft, now) : Totals.read(release.times()),
        viewer.operatorName(),
        head.size(),
        HexFormat.of().formatHex(head.root()),
        Shown.moment(now, viewer.zone()),
        release == null ? null : proven(viewer, release.id(), head));
  }

  /**
   * The log entry of a pilot's own work.
   *
   * @throws NotHere when the operator has no such record
   */
  @Reading
  public PilotPaper ofPilotWork(Viewer viewer, UUID workId, Instant now) {
    PilotWorks.Done work = pilots.one(viewer, workId);
    AircraftSheet aircraft = fleet.sheet(viewer, work.aircraftId(), View.EVERYTHING);
    SignedHead head = heads.signed(new Act(viewer.operatorId(), viewer.personId(), now));
    return new PilotPaper(
        work,
        aircraft,
        PilotWorks.STATEMENT,
        viewer.operatorName(),
        Paper.foot(aircraft.registration(), Shown.moment(now, viewer.zone()), head.size()),
        HexFormat.of().formatHex(head.root()),
        proven(viewer, workId, head));
  }

  private Proven proven(Viewer viewer, UUID recordId, SignedHead head) {
    Line line = lines.ofRecord(viewer.operatorId(), recordId).orElseThrow();
    Inclusion inclusion = proofs.inclusion(viewer.operatorId(), line.seq(), head.size());
    return new Proven(new PrintedProof(head, inclusion), Shown.moment(head.at(), viewer.zone()));
  }

  /**
   * The same of an order that is closed.
   *
   * @throws NotHere while it is not: nothing is certified yet
   */
  @Reading
  public Paper ofClosed(Viewer viewer, UUID orderId, Instant now) {
    Paper paper = of(viewer, orderId, now);
    if (paper.release() == null) {
      throw new NotHere(
          "Order "
              + paper.sheet().order().no()
              + " is not closed: nothing is certified yet that could be printed.");
    }
    return paper;
  }
}
