package trestle.house;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.defects.Photos;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.PartKind;
import trestle.fleet.Particulars;
import trestle.fleet.Position;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.reckoning.Counter;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.workshop.Area;
import trestle.workshop.CostKind;
import trestle.workshop.FlightPermits;
import trestle.workshop.LinePhotos;
import trestle.workshop.LineWorks;
import trestle.workshop.NewLine;
import trestle.workshop.NewWork;
import trestle.workshop.OrderBook;
import trestle.workshop.OrderLine;
import trestle.workshop.PartKept;
import trestle.workshop.PartUses;
import trestle.workshop.PilotWorks;
import trestle.workshop.ReadingKind;
import trestle.workshop.Releases;
import trestle.workshop.WorkCosts;
import trestle.workshop.WorkOrderSheet;
import trestle.workshop.WorkOrders;
import trestle.workshop.WorkReadings;

/** An aircraft in the workshop, with orders in every state; every word bears the mark. */
@ApplicationScoped
class Bay {
  @Inject Fleet fleet;
  @Inject Hangar hangar;
  @Inject Members members;
  @Inject WorkOrders orders;
  @Inject LineWorks works;
  @Inject PartUses parts;
  @Inject WorkReadings readings;
  @Inject WorkCosts costs;
  @Inject LinePhotos linePhotos;
  @Inject Photos photos;
  @Inject PilotWorks pilots;
  @Inject Releases releases;
  @Inject FlightPermits permits;
  @Inject OrderBook book;
  @Inject IdentityProof identity;

  /**
   * The ids of what was made.
   *
   * @param lines of the order in work, unsigned, by their place in it
   * @param signed by another engineer, waiting for a second person
   * @param own signed by the viewer
   * @param taken signed by the viewer, to be taken away
   */
  record Found(
      UUID aircraft,
      UUID engine,
      UUID magneto,
      UUID spare,
      UUID order,
      UUID draft,
      UUID finished,
      UUID flown,
      List<UUID> lines,
      List<UUID> rows,
      UUID signed,
      UUID own,
      UUID taken,
      UUID part,
      UUID other,
      UUID reading,
      UUID cost,
      UUID release,
      UUID permit,
      UUID pilotWork) {}

  /**
   * @param viewer in every role, with the password of a {@link Company}
   */
  Found of(Viewer viewer, String mark, String registration, Instant now) {
    Instant began = now.minusSeconds(90L * 86_400);
    UUID aircraft =
        fleet.register(
            viewer,
            new Fleet.Registering(
                Particulars.of(registration, mark + " 400", mark + "-S4"),
                List.of(new Position("engine", PartKind.ENGINE, mark + " engine", false)),
                began,
                Map.of(Counter.HOURS, 3_600L),
                null));
    UUID engine = hangar.engine(viewer, mark + "-E4", began, 0L, 0L);
    hangar.fit(viewer, engine, aircraft, "engine", began);
    UUID magneto = hangar.magneto(viewer, mark + "-M", mark + "-M1", began);
    hangar.put(viewer, magneto, engine, "left", began);
    UUID spare = hangar.magneto(viewer, mark + "-M", mark + "-M2", began);

    UUID pilotWork = byThePilot(viewer, mark, aircraft, now);
    UUID order = order(viewer, mark, aircraft, 11, false);
    WorkOrderSheet sheet = book.order(viewer, order);
    linePhotos.add(
        viewer,
        sheet.lines().get(0).line().id(),
        List.of(photos.prepare(viewer, Wreck.picture(mark))),
        mark + " dent",
        null);
    UUID part = bolt(viewer, mark, sheet.lines().get(1));
    UUID other = bolt(viewer, mark, sheet.lines().get(6));
    UUID signed = byAnother(viewer, mark, sheet.lines().get(8).line().rowId(), now);
    UUID own = sign(viewer, sheet.lines().get(9), mark, now);
    UUID taken = sign(viewer, sheet.lines().get(10), mark, now);
    UUID draft =
        orders.draft(
            viewer,
            aircraft,
            new WorkOrders.Terms(mark + " paint", mark, mark, null, null, true),
            lines(mark, 1, false),
            null);
    UUID finished = order(viewer, mark, aircraft, 1, false);
    sign(viewer, book.order(viewer, finished).lines().get(0), mark, now);
    UUID flown = order(viewer, mark, aircraft, 1, false);
    sign(viewer, book.order(viewer, flown).lines().get(0), mark, now);
    UUID release =
        releases.release(
            viewer,
            proof(viewer),
            new Releases.NewRelease(
                flown,
                true,
                List.of(),
                mark + " rigging",
                mark,
                Yard.LICENCE,
                Releases.seen(book.order(viewer, flown))),
            null);
    UUID permit =
        permits.file(
            viewer,
            new FlightPermits.NewPermit(
                aircraft,
                mark,
                mark,
                mark + " crew only",
                viewer.dateOf(now),
                viewer.dateOf(now).plusDays(3)),
            null);
    return new Found(
        aircraft,
        engine,
        magneto,
        spare,
        order,
        draft,
        finished,
        flown,
        sheet.lines().stream().map(line -> line.line().id()).toList(),
        sheet.lines().stream().map(line -> line.line().rowId()).toList(),
        signed,
        own,
        taken,
        part,
        other,
        reading(viewer, mark, sheet.lines().get(7).line().id(), now),
        cost(viewer, mark, order),
        release,
        permit,
        pilotWork);
  }

  /** While nothing is in work: then only engineers sign. */
  private UUID byThePilot(Viewer viewer, String mark, UUID aircraft, Instant now) {
    pilots.state(viewer, aircraft, false, mark, null);
    return pilots.sign(
        viewer,
        proof(viewer),
        new PilotWorks.NewPilotWork(
            aircraft,
            pilots.tasks(viewer, aircraft).get(0),
            mark + " tyre",
            mark + " manual",
            now,
            Yard.LICENCE),
        null);
  }

  private UUID bolt(Viewer viewer, String mark, OrderLine line) {
    return parts.used(
        viewer,
        new PartUses.Used(
            line.line().id(),
            "used",
            PartKept.STANDARD_PART,
            mark + " bolt",
            mark,
            "",
            mark,
            BigDecimal.ONE,
            "",
            ""),
        null);
  }

  private UUID reading(Viewer viewer, String mark, UUID line, Instant now) {
    List<WorkReadings.One> taken = List.of(new WorkReadings.One(mark, null, mark + " flakes"));
    return readings
        .file(
            viewer,
            new WorkReadings.Taken(line, null, ReadingKind.FILTER, null, null, taken, now),
            null)
        .get(0);
  }

  private UUID cost(Viewer viewer, String mark, UUID order) {
    return costs.file(
        viewer,
        new WorkCosts.NewCost(
            order, null, false, CostKind.OUTSIDE, mark, null, null, BigDecimal.TEN, "EUR"),
        null);
  }

  /** More orders of the aircraft, with signed lines. */
  void more(Viewer viewer, String mark, Found found, Instant now) {
    UUID order = order(viewer, mark, found.aircraft(), 3, true);
    sign(viewer, book.order(viewer, order).lines().get(0), mark, now);
  }

  private UUID order(Viewer viewer, String mark, UUID aircraft, int size, boolean controls) {
    UUID order =
        orders.draft(
            viewer,
            aircraft,
            WorkOrders.Terms.of(mark + " work"),
            lines(mark, size, controls),
            null);
    orders.issue(viewer, order, null);
    return order;
  }

  /** Of eleven lines the ninth is inspected by a second person. */
  private static List<NewLine> lines(String mark, int size, boolean controls) {
    List<NewLine> lines = new ArrayList<>();
    for (int i = 0; i < size; i++) {
      Area area = controls || i == 8 ? Area.FLIGHT_CONTROLS : Area.GEAR;
      lines.add(NewLine.free(mark + " line " + i, area, mark + " manual", false));
    }
    return lines;
  }

  private UUID sign(Viewer viewer, OrderLine line, String mark, Instant now) {
    return works
        .sign(
            viewer,
            proof(viewer),
            Yard.LICENCE,
            List.of(NewWork.done(line.line().rowId(), mark + " done", mark + " manual", now)),
            null)
        .get(0);
  }

  private UUID byAnother(Viewer viewer, String mark, UUID row, Instant now) {
    Members.Welcome welcome =
        members.takeIn(viewer, mark, mark + "@" + UUID.randomUUID(), Set.of(Role.ENGINEER));
    members.addLicence(
        viewer,
        welcome.personId(),
        new Members.NewLicence(mark + "-8", "Licensed engineer", mark, mark, null));
    Viewer other =
        new Viewer(
            welcome.personId(),
            mark,
            false,
            viewer.operatorId(),
            viewer.operatorName(),
            viewer.zone(),
            true,
            Set.of(Role.ENGINEER));
    return works
        .sign(
            other,
            identity.prove(other, welcome.password()),
            mark + "-8",
            List.of(NewWork.done(row, mark + " rigged", mark + " manual", now)),
            null)
        .get(0);
  }

  private Proof proof(Viewer viewer) {
    return identity.prove(viewer, Company.PASSWORD);
  }
}
