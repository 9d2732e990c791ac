package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.defects.OpenDefects;
import trestle.ledger.View;
import trestle.people.IdentityProof;
import trestle.people.Proof;
import trestle.programme.DueItems;
import trestle.server.TheClock;
import trestle.standing.DueItem;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.workshop.Area;
import trestle.workshop.LineWorks;
import trestle.workshop.NewLine;
import trestle.workshop.NewWork;
import trestle.workshop.OrderBook;
import trestle.workshop.PartKept;
import trestle.workshop.PartUses;
import trestle.workshop.Releases;
import trestle.workshop.WorkOrderSheet;
import trestle.workshop.WorkOrders;

/**
 * The work orders of the story: one of QX-WIC, finished, and one of QX-TBC, in work. The finished
 * one is signed, so it is told only where the engineers' passwords are known: while they are made.
 */
@ApplicationScoped
class OrderLoad {
  private static final String FIRST = "brandt";
  private static final String SECOND = "fenwick";

  @Inject IdentityProof identity;
  @Inject WorkOrders orders;
  @Inject LineWorks works;
  @Inject PartUses parts;
  @Inject Releases releases;
  @Inject OrderBook book;
  @Inject OpenDefects defects;
  @Inject DueItems dueItems;
  @Inject TheClock clock;

  /** When the finished order was signed, and the proofs of who signed. */
  record Signed(Instant at, Map<String, Proof> proofs) {}

  /** The engineers prove who they are, as of the moment at which they will sign. */
  Signed prove(Cast cast, List<CastLoad.Invited> people, FlightPlan plan) throws Exception {
    Instant at = plan.morning(26).plus(Duration.ofHours(9));
    Map<String, Proof> proofs = new HashMap<>();
    for (CastLoad.Invited person : people) {
      boolean signs = person.signInName().equals(FIRST) || person.signInName().equals(SECOND);
      if (signs && person.isNew()) {
        Viewer who = cast.of(person.signInName());
        proofs.put(
            person.signInName(), clock.telling(at, () -> identity.prove(who, person.password())));
      }
    }
    return new Signed(at, proofs);
  }

  List<Event> events(WorkLoad.Stage stage, Signed signed) {
    List<Event> events = new ArrayList<>();
    if (signed.proofs().size() == 2) {
      events.add(new Event.Filed(signed.at(), () -> finished(stage, signed)));
    }
    Instant begun = stage.totals().get("QX-TBC").plan().morning(1).plus(Duration.ofHours(10));
    events.add(new Event.Filed(begun, () -> inWork(stage, begun)));
    return events;
  }

  /** Aileron cables set by one engineer and inspected by the other, and a tyre. */
  private UUID finished(WorkLoad.Stage stage, Signed signed) {
    Viewer first = stage.cast().of(FIRST);
    Viewer second = stage.cast().of(SECOND);
    UUID order =
        orders.draft(
            first,
            stage.fleet().aircraft("QX-WIC"),
            new WorkOrders.Terms(
                "Aileron cables and a tyre", "", "Port Maddern", null, null, false),
            List.of(
                NewLine.free(
                    "Aileron cable tension", Area.FLIGHT_CONTROLS, "Example manual 27-10", true),
                NewLine.free("Right main tyre", Area.GEAR, "Example manual 32-40", false)),
            null);
    orders.issue(first, order, null);
    UUID tyre = book.order(first, order).lines().get(1).line().id();
    parts.used(
        first, part(tyre, PartKept.COMPONENT, "Tyre", "TY-600", "T-8841", "", "RC-5107"), null);
    parts.used(
        first, part(tyre, PartKept.MATERIAL, "Wheel grease", "G-22", "", "B-0419", "S-118"), null);
    WorkOrderSheet sheet = book.order(first, order);
    String licence = licence(FIRST);
    List<UUID> done =
        works.sign(
            first,
            signed.proofs().get(FIRST),
            licence,
            List.of(
                work(sheet, 0, "Both cables set to 30 lb; travel checked", "27-10", signed.at()),
                work(sheet, 1, "Tyre replaced, bearing greased", "32-40", signed.at())),
            null);
    works.inspect(
        second,
        signed.proofs().get(SECOND),
        done.get(0),
        "Tension, travel, direction and safetying seen",
        licence(SECOND),
        null);
    return releases.release(
        first,
        signed.proofs().get(FIRST),
        new Releases.NewRelease(
            order, true, List.of(), "", "", licence, Releases.seen(book.order(first, order))),
        null);
  }

  private static PartUses.Used part(
      UUID line,
      PartKept kept,
      String what,
      String number,
      String serial,
      String batch,
      String evidence) {
    return new PartUses.Used(
        line,
        kept == PartKept.MATERIAL ? "used" : "on",
        kept,
        what,
        number,
        serial,
        batch,
        BigDecimal.ONE,
        "",
        evidence);
  }

  private static NewWork work(
      WorkOrderSheet sheet, int line, String words, String chapter, Instant at) {
    return new NewWork(
        sheet.lines().get(line).line().rowId(),
        trestle.workshop.Outcome.DONE,
        words,
        "Example manual " + chapter,
        "3",
        at,
        "",
        null);
  }

  /** The exhaust: what smells, and what the directive asks of it. */
  private UUID inWork(WorkLoad.Stage stage, Instant begun) {
    UUID aircraft = stage.fleet().aircraft("QX-TBC");
    Viewer controller = stage.cast().any(Role.CONTROLLER);
    LocalDate day = controller.dateOf(begun);
    List<NewLine> lines = new ArrayList<>();
    defects
        .of(controller, List.of(aircraft), View.asAt(day))
        .getOrDefault(aircraft, List.of())
        .stream()
        .filter(defect -> defect.words().contains("Exhaust"))
        .forEach(defect -> lines.add(NewLine.defect(defect.entryId())));
    dueItems.dueItems(controller, List.of(aircraft), View.asAt(day)).get(aircraft).stream()
        .filter(item -> item.kind().equals("directive") && item.reckoning().spent())
        .map(OrderLoad::due)
        .forEach(lines::add);
    lines.add(NewLine.free("Carbon monoxide check after the run", Area.CABIN, "", false));
    UUID order =
        orders.draft(
            controller,
            aircraft,
            new WorkOrders.Terms("Left exhaust", "", "Port Maddern", day, null, false),
            lines,
            null);
    orders.issue(controller, order, null);
    orders.start(stage.cast().of(FIRST), order, null);
    return order;
  }

  private static NewLine due(DueItem item) {
    return NewLine.due(
        item.requirementId(), item.subject().isAircraft() ? null : item.subject().id());
  }

  private static String licence(String signInName) {
    return SeedFile.lines("people.csv").stream()
        .filter(person -> person.text("sign_in_name").equals(signInName))
        .map(person -> person.text("licence_number"))
        .findFirst()
        .orElseThrow();
  }
}
