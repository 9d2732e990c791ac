package trestle.workshop;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.ledger.Filed;
import trestle.ledger.View;
import trestle.people.Members.LicenceLine;
import trestle.signing.Signing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** What one press signs: checked, and written down as it is shown. */
@ApplicationScoped
class Presses {
  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject Entitled entitled;
  @Inject Totals totals;
  @Inject Fleet fleet;
  @Inject InstantSource clock;

  /** What one press signs: its order, its signer's licence, and what is filed besides. */
  record Press(
      Viewer viewer,
      WorkOrderSheet order,
      LicenceLine licence,
      Totals.Running running,
      String registration,
      boolean several,
      List<Signing> signings,
      List<Filed> also) {}

  Press of(
      Viewer viewer,
      WorkOrderSheet order,
      String licenceNumber,
      List<NewWork> works,
      List<OrderLine> lines) {
    Instant now = clock.instant();
    Set<UUID> signedNow = new HashSet<>();
    lines.forEach(line -> signedNow.add(line.line().id()));
    LicenceLine licence = null;
    for (int i = 0; i < works.size(); i++) {
      Entitled.check(works.get(i), now, works.size() > 1 ? lines.get(i).line() : null);
      licence = entitled.licence(viewer, licenceNumber, works.get(i).at(), lines.get(i).line());
      tasksClosed(order, lines.get(i), signedNow);
    }
    if (signedNow.size() < lines.size()) {
      throw new Refusal("lines", "A line is signed once in a press.");
    }
    return new Press(
        viewer,
        order,
        licence,
        totals.of(viewer, order.order().aircraftId()),
        fleet.sheet(viewer, order.order().aircraftId(), View.EVERYTHING).registration(),
        works.size() > 1,
        new ArrayList<>(),
        new ArrayList<>());
  }

  /** An inspection is signed when all that it looks at is. */
  private static void tasksClosed(WorkOrderSheet order, OrderLine line, Set<UUID> signedNow) {
    List<OrderLine> open =
        order.tasksOf(line.line().id()).stream()
            .filter(task -> !task.isSigned() && !signedNow.contains(task.line().id()))
            .toList();
    if (!open.isEmpty()) {
      throw new Refusal(
          "lines",
          "Line "
              + line.line().ordinal()
              + " is the inspection of which "
              + (open.size() == 1
                  ? "task " + open.get(0).line().ordinal() + " is"
                  : open.size() + " tasks are")
              + " not signed yet.");
    }
  }

  static LineWork row(Press press, OrderLine line, NewWork asked) {
    LineWork row = new LineWork();
    row.aircraftId = line.line().aircraftId();
    row.lineEntryId = line.line().id();
    row.outcome = asked.outcome().word();
    row.words = asked.words();
    row.dataReference = asked.dataReference();
    row.dataRevision = asked.dataRevision();
    row.times = press.running.json(asked.at());
    row.workedBy = press.viewer.personId();
    row.workerName = press.viewer.personName();
    row.performedBy = asked.performedBy();
    row.licenceNumber = press.licence.number();
    row.licenceKind = press.licence.kind();
    row.bookId = books(press, asked.at()).of(press.order, line, asked.bookId(), press.several);
    row.happened(asked.at(), press.viewer.dateOf(asked.at()));
    return row;
  }

  private static Logbooks books(Press press, Instant at) {
    return new Logbooks(press.order.order().aircraftId(), press.running, at);
  }

  static ObjectNode about(WorkOrderSheet order, OrderLine line) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("work-order", order.order().no());
    shown.put("line", line.line().ordinal());
    shown.put("asked", line.line().title());
    return shown;
  }

  static ObjectNode shown(Press press, OrderLine line, LineWork row) {
    ObjectNode shown = about(press.order, line);
    shown.put("aircraft", press.registration);
    shown.put("outcome", row.outcome);
    shown.put("words", row.words);
    shown.put("data-reference", row.dataReference);
    shown.put("data-revision", row.dataRevision);
    shown.put("on", row.happenedOn().toString());
    shown.put("performed-by", row.performedBy);
    shown.put("times", row.times);
    shown.put("logbook", books(press, row.happenedAt()).name(row.bookId));
    ArrayNode parts = shown.putArray("parts");
    line.parts()
        .forEach(
            part ->
                parts.add(
                    part.movement()
                        + " "
                        + part.amount()
                        + " "
                        + part.words()
                        + ": "
                        + part.evidence()));
    ArrayNode readings = shown.putArray("readings");
    line.readings().forEach(one -> readings.add(one.said()));
    ArrayNode photos = shown.putArray("photos");
    line.photos().forEach(photo -> photos.add(photo.sha()));
    return shown;
  }

  /** Those of an order's aircraft at a moment, as a page offers them. */
  Logbooks books(Viewer viewer, WorkOrderSheet order, Instant at) {
    UUID aircraft = order.order().aircraftId();
    return new Logbooks(aircraft, totals.of(viewer, aircraft), at);
  }

  /** The order of work that stands still; over or not. */
  WorkOrderSheet standing(Viewer viewer, LineWork work) {
    WorkOrderSheet order = book.ofLine(viewer, work.lineEntryId);
    boolean stands =
        order
            .line(work.lineEntryId)
            .filter(line -> line.isSigned() && line.work().id().equals(work.id()))
            .isPresent();
    if (!stands) {
      throw new Stale("Someone has changed this record since you opened this form.");
    }
    return order;
  }

  LineWork work(UUID id) {
    return repository
        .row(LineWork.class, id)
        .orElseThrow(() -> new NotHere("There is no such record here."));
  }

  WorkLine line(UUID rowId) {
    return repository
        .row(WorkLine.class, rowId)
        .orElseThrow(() -> new NotHere("There is no such line here."));
  }
}
