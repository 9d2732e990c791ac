package trestle.workshop.paper;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.HexFormat;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.profiles.RuleProfiles;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Shown;
import trestle.web.Viewer;
import trestle.workshop.OrderBook;
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
  @Inject Ledger ledger;

  /**
   * @throws NotHere when the operator has no such order
   */
  @Reading
  public Paper of(Viewer viewer, UUID orderId, Instant now) {
    WorkOrderSheet sheet = book.order(viewer, orderId);
    ReleaseSheet release = sheet.release();
    UUID aircraft = sheet.order().aircraftId();
    Ledger.Head head = ledger.head(viewer.operatorId());
    return new Paper(
        sheet,
        fleet.sheet(viewer, aircraft, View.EVERYTHING),
        profiles.of(
            viewer, aircraft, View.asAt(release == null ? viewer.dateOf(now) : release.on())),
        release == null ? totals.at(viewer, aircraft, now) : Totals.read(release.times()),
        viewer.operatorName(),
        head.size(),
        HexFormat.of().formatHex(head.root()),
        Shown.moment(now, viewer.zone()));
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
