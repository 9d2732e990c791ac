package trestle.speed;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.programme.Compliances;
import trestle.programme.NewCompliance;
import trestle.programme.NewRequirement;
import trestle.programme.RequirementKind;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.workshop.Area;
import trestle.workshop.LineSheet;
import trestle.workshop.LineWorks;
import trestle.workshop.NewLine;
import trestle.workshop.NewWork;
import trestle.workshop.OrderBook;
import trestle.workshop.PartKept;
import trestle.workshop.PartUses;
import trestle.workshop.ReadingKind;
import trestle.workshop.Releases;
import trestle.workshop.TaskLists;
import trestle.workshop.WorkOrders;
import trestle.workshop.WorkReadings;

/**
 * An inspection of 100 lines, among 50 other orders of the aircraft: how long its pages and its
 * papers take through HTTP, once signed with parts and readings, and closed.
 */
@QuarkusTest
class WorkOrderBenchmark {
  private static final int LINES = 100;
  private static final int OTHERS = 50;
  private static final String LICENCE = "L-100";
  private static final String DATA = "Example manual 5-20";

  @Inject Operators operators;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject InstantSource clock;
  @Inject Hangar hangar;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject TaskLists taskLists;
  @Inject WorkOrders orders;
  @Inject LineWorks works;
  @Inject PartUses parts;
  @Inject WorkReadings readings;
  @Inject Releases releases;
  @Inject OrderBook book;

  private Company company;
  private Viewer owner;
  private Viewer engineer;
  private UUID aircraft;

  @Test
  void anInspectionOfAHundredLines() {
    company = Company.founded("inspection-" + UUID.randomUUID(), operators, members);
    owner = company.viewer(Role.OWNER);
    engineer = company.viewer(Role.ENGINEER);
    members.addLicence(
        owner,
        engineer.personId(),
        new Members.NewLicence(LICENCE, "Licensed engineer", "airframe, engine", "", null));
    Instant from = clock.instant().minusSeconds(90L * 86_400);
    aircraft = hangar.single(owner, "QX-HUN", from);
    hangar.fit(owner, hangar.engine(owner, "E-1", from, 0L, 0L), aircraft, "engine", from);
    hangar.fit(owner, hangar.propeller(owner, "P-1", from), aircraft, "propeller", from);
    UUID order = drawn("Annual inspection", NewLine.due(annual(), null));
    for (int i = 0; i < OTHERS; i++) {
      drawn("Order " + i, NewLine.free("Grease it", Area.GEAR, DATA, false));
    }
    Visitor visitor = company.visitor(Role.ENGINEER);
    String page = "/work-orders/" + order;
    time(visitor, "order, nothing signed", page, 200);
    time(visitor, "order as PDF, nothing signed", page + "/paper/work-order.pdf", 20);
    signed(order);
    time(visitor, "order, all signed", page, 200);
    time(visitor, "one of its lines", book.order(owner, order).lines().get(7).line().link(), 200);
    time(visitor, "the page of its release", page + "/release", 200);
    time(visitor, "order as PDF, all signed", page + "/paper/work-order.pdf", 20);
    releases.release(
        engineer,
        identity.prove(engineer, Company.PASSWORD),
        new Releases.NewRelease(
            order, true, List.of(), "", "", LICENCE, Releases.seen(book.order(owner, order))),
        null);
    time(visitor, "certificate", page + "/paper/release.pdf", 20);
    time(visitor, "log entries", page + "/paper/log-entries.pdf", 20);
  }

  private UUID annual() {
    LocalDate began = owner.dateOf(clock.instant()).minusDays(80);
    UUID annual =
        requirements.create(
            owner,
            NewRequirement.ofAircraft(
                aircraft,
                "aircraft",
                Terms.of(
                    "Annual inspection",
                    RequirementKind.INSPECTION,
                    Rule.first(Limit.Every.of(Interval.ofMonths(12)).toMonthEnd()),
                    began),
                began,
                "The authority"));
    compliances.file(
        owner,
        NewCompliance.transcribed(
                annual,
                aircraft,
                null,
                began.atStartOfDay(owner.zone()).toInstant(),
                Usage.parse("hours=0"),
                "Log 1")
            .asBaseline());
    List<TaskLists.Task> tasks = new ArrayList<>();
    Area[] areas = {Area.CABIN, Area.ENGINE, Area.GEAR, Area.WING, Area.EMPENNAGE, Area.RADIO};
    for (int i = 1; i < LINES; i++) {
      tasks.add(
          new TaskLists.Task(
              areas[i % areas.length],
              "Item " + i + ": security, cracks, corrosion, leaks, and the state of its fittings",
              "Example manual 5-" + i,
              false));
    }
    taskLists.revise(owner, annual, null, tasks, "The authority", "", null);
    return annual;
  }

  private UUID drawn(String title, NewLine line) {
    UUID order = orders.draft(owner, aircraft, WorkOrders.Terms.of(title), List.of(line), null);
    orders.issue(owner, order, null);
    return order;
  }

  /** A part on each tenth line, a reading on each fifth; all signed at one press. */
  private void signed(UUID order) {
    Instant now = clock.instant();
    List<NewWork> all = new ArrayList<>();
    for (var line : book.order(owner, order).lines()) {
      LineSheet one = line.line();
      if (one.ordinal() % 10 == 0) {
        part(one);
      }
      if (one.ordinal() % 5 == 0) {
        readings.file(
            engineer,
            new WorkReadings.Taken(
                one.id(),
                null,
                ReadingKind.TORQUE,
                null,
                null,
                List.of(new WorkReadings.One("Bolt " + one.ordinal(), BigDecimal.TEN, "")),
                now),
            null);
      }
      all.add(NewWork.done(one.rowId(), "Carried out as written. Nothing found.", DATA, now));
    }
    works.sign(engineer, identity.prove(engineer, Company.PASSWORD), LICENCE, all, null);
  }

  private void part(LineSheet line) {
    parts.used(
        engineer,
        new PartUses.Used(
            line.id(),
            "used",
            PartKept.STANDARD_PART,
            "Bolt",
            "B-" + line.ordinal(),
            "",
            "LOT-9",
            BigDecimal.ONE,
            "",
            "Statement 12"),
        null);
  }

  private static void time(Visitor visitor, String what, String path, int times) {
    double[] milliseconds = new double[times];
    for (int i = -times / 2; i < times; i++) {
      long begin = System.nanoTime();
      int status = visitor.get(path).statusCode();
      if (status != 200) {
        throw new AssertionError(path + " answered " + status);
      }
      if (i >= 0) {
        milliseconds[i] = (System.nanoTime() - begin) / 1e6;
      }
    }
    Arrays.sort(milliseconds);
    System.out.printf(
        "%s: median %.1f ms, 95 of 100 within %.1f ms, longest %.1f ms%n",
        what, milliseconds[times / 2], milliseconds[times * 95 / 100], milliseconds[times - 1]);
  }
}
