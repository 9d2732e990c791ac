package trestle.workshop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.sql.SQLException;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.PartKind;
import trestle.fleet.Spot;
import trestle.people.Company;
import trestle.people.Proof;
import trestle.people.Visitor;
import trestle.profiles.Example;
import trestle.profiles.Examples;
import trestle.profiles.RuleProfiles;
import trestle.programme.RequirementKind;
import trestle.programme.Terms;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.server.StatementCount;
import trestle.server.TestDatabase;
import trestle.server.TheClock;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;
import trestle.workshop.Hands.Engineer;

/** What the workshop refuses, who wins a race, and what an end of work does to the standing. */
@QuarkusTest
class WorkshopTest {
  private static final LocalDate BEGAN = LocalDate.of(2024, 6, 1);

  /** More on request: -Dtrestle.races=10000. */
  private static final int RACES = Integer.getInteger("trestle.races", 40);

  private static final int HTTP_RACES = Integer.getInteger("trestle.http-races", 3);
  private static final int PEOPLE = 8;

  /** As many lines has each order that is raced for: everybody reads all of them, each time. */
  private static final int LINES = 20;

  @Inject Hands hands;
  @Inject TheClock clock;
  @Inject InstantSource time;
  @Inject WorkOrders orders;
  @Inject WorkLines lines;
  @Inject LineWorks works;
  @Inject LineCorrections corrections;
  @Inject PartUses parts;
  @Inject LinesLeftOpen leaving;
  @Inject Releases releases;
  @Inject CheckFlights checkFlights;
  @Inject Blocks blocks;
  @Inject FlightPermits permits;
  @Inject OrderBook book;
  @Inject OrderChoices choices;
  @Inject Components components;
  @Inject Fitments fitments;
  @Inject RuleProfiles profiles;

  private static Company company;
  private static Engineer first;
  private static Engineer second;
  private static int count;
  private Viewer owner;
  private UUID aircraft;

  private final Map<Engineer, Proof> proofs = new ConcurrentHashMap<>();
  private Instant proven = Instant.EPOCH;

  @BeforeEach
  void found() {
    if (company == null) {
      company = hands.company();
      first = hands.engineer(company, "Una Reed", "airframe, engine", null);
      second = hands.engineer(company, "Olaf Sedge", "airframe, engine", null);
    }
    owner = company.viewer(Role.OWNER);
    aircraft = hands.aircraft(owner, "QX-W" + count++, BEGAN, "hours=900 landings=2000");
  }

  @Test
  void signingIsRefusedWithoutALicenceThatCoversTheWork() {
    Engineer expired = hands.engineer(company, "Ada Late", "airframe", today().minusDays(1));
    UUID order = issued("Oil change", "Radio check");
    LineSheet radio = line(order, "Radio").line();
    lines.revise(
        owner,
        radio.rowId(),
        new WorkLines.Change(radio.title(), Area.RADIO, "", "avionics", false),
        "Needs avionics",
        null);
    assertThatThrownBy(() -> sign(expired, order, "Oil"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("good on the day");
    assertThatThrownBy(() -> sign(first, order, "Radio"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("rated for airframe, engine", "asks for avionics");
    assertThatThrownBy(
            () ->
                works.sign(
                    company.viewer(Role.PILOT),
                    hands.proof(first),
                    first.licence(),
                    List.of(asked(order, "Oil", time.instant())),
                    null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Only an engineer");
    assertThatThrownBy(() -> sign(first, order, "Oil", time.instant().plusSeconds(86_400)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("future");
    assertThat(book.order(owner, order).signed()).isZero();
  }

  @Test
  void aStalePageSignsNothing() {
    UUID order = issued("Oil change", "Tyre change");
    NewWork before = asked(order, "Oil", time.instant());
    LineSheet oil = line(order, "Oil").line();
    lines.revise(
        owner,
        oil.rowId(),
        new WorkLines.Change("Oil change, 8 l", Area.ENGINE, Hands.DATA, "", false),
        "Said more",
        null);
    assertThatThrownBy(() -> sign(first, List.of(before)))
        .isInstanceOf(Stale.class)
        .hasMessageContaining("changed since");
    NewWork read = asked(order, "Oil", time.instant());
    sign(second, List.of(read));
    NewWork other = asked(order, "Tyre", time.instant());
    assertThatThrownBy(() -> sign(first, List.of(other, read)))
        .isInstanceOf(Stale.class)
        .hasMessageContaining("signed meanwhile, by Olaf Sedge");
    assertThat(line(order, "Tyre").isSigned()).as("all or none").isFalse();
    String seen = Releases.seen(book.order(owner, order));
    sign(first, List.of(other));
    assertThatThrownBy(() -> release(order, true, List.of(), "", seen)).isInstanceOf(Stale.class);
    UUID key = UUID.randomUUID();
    UUID release = released(order, key);
    assertThat(released(order, key)).as("one form is filed once").isEqualTo(release);
  }

  @Test
  void ofPeopleWhoSignOneLineAtOnceOneSigns() throws Exception {
    List<Engineer> people = new ArrayList<>(List.of(first, second));
    while (people.size() < PEOPLE) {
      people.add(hands.engineer(company, "Racer " + people.size(), "airframe", null));
    }
    UUID order = null;
    int won = 0;
    for (int race = 0; race < RACES; race++) {
      if (race % LINES == 0) {
        if (order != null) {
          orderIsWhole(order, LINES);
        }
        order = issuedControls(Math.min(LINES, RACES - race));
      }
      NewWork asked = asked(order, "Cable " + race % LINES + ".", time.instant());
      won += race(people, (one, proof) -> sign(one, proof, List.of(asked)));
      UUID work = line(order, "Cable " + race % LINES + ".").work().id();
      int looked =
          race(
              people,
              (one, proof) ->
                  works.inspect(one.viewer(), proof, work, "Seen", one.licence(), null));
      assertThat(looked).isEqualTo(1);
    }
    assertThat(won).isEqualTo(RACES);
    orderIsWhole(order, (RACES - 1) % LINES + 1);
  }

  /** One race; another where nobody won as the machine stood still while their proofs ran out. */
  private int race(List<Engineer> people, Signing signing) throws Exception {
    renewProofs(people);
    int winners = winners(people, one -> signing.with(one, proofs.get(one)));
    if (winners == 0 && proven.isBefore(time.instant().minusSeconds(80))) {
      renewProofs(people);
      return winners(people, one -> signing.with(one, proofs.get(one)));
    }
    return winners;
  }

  private interface Signing {
    Object with(Engineer one, Proof proof);
  }

  /** Proofs last two minutes; making one takes its time. */
  private void renewProofs(List<Engineer> people) {
    if (proven.isBefore(time.instant().minusSeconds(40))) {
      people.forEach(one -> proofs.put(one, hands.proof(one)));
      proven = time.instant();
    }
  }

  /** Every line is signed once, and inspected by somebody else. */
  private void orderIsWhole(UUID order, int size) {
    WorkOrderSheet sheet = book.order(owner, order);
    assertThat(sheet.lines())
        .hasSize(size)
        .allSatisfy(
            line -> {
              assertThat(line.isDone()).isTrue();
              assertThat(line.look().inspectedBy()).isNotEqualTo(line.work().workedBy());
            });
  }

  @Test
  void soItIsThroughPages() throws Exception {
    List<Visitor> people = new ArrayList<>();
    List<Engineer> engineers = new ArrayList<>();
    for (int i = 0; i < PEOPLE; i++) {
      Engineer one = hands.engineer(company, "Walker " + i, "airframe", null);
      engineers.add(one);
      people.add(Visitor.signedIn(one.signIn(), one.password()));
    }
    UUID order = issuedControls(HTTP_RACES);
    for (int race = 0; race < HTTP_RACES; race++) {
      UUID id = line(order, "Cable " + race + ".").line().id();
      List<Integer> answers = new ArrayList<>();
      List<Callable<Integer>> presses = new ArrayList<>();
      for (int i = 0; i < PEOPLE; i++) {
        Visitor who = people.get(i);
        Engineer as = engineers.get(i);
        Visitor.Filled filled =
            who.filled(
                "/work-lines/" + id + "/work",
                "/work",
                Map.of(
                    "words",
                    "Tensioned",
                    "data-reference",
                    "Manual 27",
                    "licence",
                    as.licence(),
                    "password",
                    as.password()));
        presses.add(() -> who.send(filled).statusCode());
      }
      atOnce(presses).forEach(answers::add);
      assertThat(answers).containsOnly(303, 409).containsOnlyOnce(303);
    }
    assertThat(book.order(owner, order).awaitingInspection()).hasSize(HTTP_RACES);
  }

  @Test
  void theDatabaseItselfRefusesASecondSignatureAndASelfInspection() throws SQLException {
    UUID order = issuedControls(1);
    sign(first, order, "Cable 0.");
    UUID work = line(order, "Cable 0.").work().id();
    // A copy of the row under a new id; the ledger's key is looked at when a transaction commits.
    assertThat(
            refused(
                "insert into line_work select (jsonb_populate_record(w,"
                    + " jsonb_build_object('id', gen_random_uuid(), 'form_key', null,"
                    + " 'ledger_seq', w.ledger_seq + 1000000))).* from line_work w where id = '"
                    + work
                    + "'"))
        .contains("worked_once");
    assertThat(
            refused(
                "insert into line_inspection (id, operator_id, ledger_seq, happened_at,"
                    + " happened_on, recorded_at, recorded_by, aircraft_id, line_work_id,"
                    + " worked_by, inspected_by, inspector_name, words, licence_number,"
                    + " licence_kind) select gen_random_uuid(), operator_id, ledger_seq + 1000000,"
                    + " happened_at, happened_on, recorded_at, worked_by, aircraft_id, id,"
                    + " worked_by, worked_by, 'x', 'x', 'x', 'x' from line_work where id = '"
                    + work
                    + "'"))
        .contains("line_inspection_check");
    assertThat(
            refused(
                "insert into line_inspection (id, operator_id, ledger_seq, happened_at,"
                    + " happened_on, recorded_at, recorded_by, aircraft_id, line_work_id,"
                    + " worked_by, inspected_by, inspector_name, words, licence_number,"
                    + " licence_kind) select gen_random_uuid(), operator_id, ledger_seq + 1000000,"
                    + " happened_at, happened_on, recorded_at, worked_by, aircraft_id, id,"
                    + " (select id from person where id <> worked_by limit 1), worked_by, 'x',"
                    + " 'x', 'x', 'x' from line_work where id = '"
                    + work
                    + "'"))
        .as("worked_by is not whom the work names")
        .contains("violates foreign key constraint");
  }

  @Test
  void aSerialFittedElsewhereIsNotFittedHere() {
    UUID elsewhere = hands.aircraft(owner, "QX-X" + count, BEGAN, "hours=10 landings=5");
    UUID part = hands.component(owner, PartKind.OTHER, "AL24", "AL-" + count, "Alternator", BEGAN);
    UUID there = engine(elsewhere);
    fitments.fit(
        owner,
        new Fitments.Fit(part, Spot.in(there, "alternator"), Hands.start(owner, BEGAN), null));
    UUID order = issued("Alternator");
    UUID line = line(order, "Alternator").line().id();
    Spot here = Spot.in(engine(aircraft), "alternator");
    assertThatThrownBy(
            () ->
                parts.on(
                    first.viewer(),
                    new PartUses.On(line, part, here, time.instant(), "RC-1"),
                    null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("QX-X");
    assertThatThrownBy(
            () ->
                parts.off(
                    first.viewer(),
                    new PartUses.Off(line, part, time.instant(), "Worn", true),
                    null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("not fitted to this aircraft");
    assertThat(line(order, "Alternator").parts()).isEmpty();
  }

  @Test
  void nothingIsReleasedWithALineOpenAndALineMayBeLeftOpenOnAuthority() {
    UUID order = issued("Oil change", "Paint the door");
    sign(first, order, "Oil");
    assertThat(whys(order)).containsExactly(Block.Why.LINE_OPEN);
    assertThatThrownBy(() -> released(order, null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Line 2 is open");
    LocalDate last = today().plusDays(9);
    leaving.leave(
        first.viewer(),
        hands.proof(first),
        line(order, "Paint").line().rowId(),
        new LinesLeftOpen.Leaving("No paint", "The authority", "Letter 4", last),
        first.licence(),
        null);
    assertThat(book.order(owner, order).state()).isEqualTo(OrderState.AWAITING_RELEASE);
    released(order, null);
    assertThat(hands.standing(owner, aircraft, today()).isClear()).isTrue();
    assertThat(hands.standing(owner, aircraft, last).isClear()).isTrue();
    assertThat(sentences(last.plusDays(1)))
        .as("past its day it holds")
        .anyMatch(one -> one.contains("not done: Paint the door"));
    assertThat(choices.of(owner, aircraft, today()))
        .anyMatch(option -> option.label().equals("Paint the door"));
    UUID left = line(order, "Paint").line().id();
    UUID next =
        orders.draft(
            owner, aircraft, WorkOrders.Terms.of("Paint"), List.of(NewLine.putOff(left)), null);
    orders.issue(owner, next, null);
    sign(first, next, "Paint");
    released(next, null);
    assertThat(sentences(last.plusDays(1))).isEmpty();
  }

  /** Every shipped profile names a paper for every class: the example's sources say from where. */
  @Test
  void aPartOfAnyClassWithoutItsPaperBlocksTheRelease() {
    for (Example example : Examples.all()) {
      for (PartKept kept : PartKept.values()) {
        assertThat(kept.evidence(example.profile())).as(example.key() + ", " + kept).isNotEmpty();
        assertThat(example.profile().partsEvidence())
            .as(example.key())
            .hasSize(PartKept.values().length);
      }
    }
    UUID order = issued("Oil change");
    UUID line = line(order, "Oil").line().id();
    for (PartKept kept : PartKept.values()) {
      parts.used(
          first.viewer(),
          new PartUses.Used(line, "on", kept, kept.label(), "", "", "B-1", BigDecimal.ONE, "", ""),
          null);
    }
    sign(first, order, "Oil");
    assertThat(blocks.of(owner, book.order(owner, order)))
        .hasSize(4)
        .allMatch(block -> block.why() == Block.Why.EVIDENCE_MISSING)
        .anyMatch(block -> block.sentence().contains("of who made it"));
    assertThatThrownBy(() -> released(order, null))
        .hasMessageContaining("Component, batch B-1 has no");
    line(order, "Oil")
        .parts()
        .forEach(part -> parts.evidence(first.viewer(), part.id(), "Paper 7", "Came", null));
    assertThat(whys(order)).isEmpty();
    released(order, null);
  }

  /** 8: 14 CFR 43.11(a)(5), an inspection signed "unairworthy": performed, and held [V/D]. */
  @Test
  void anInspectionCountsThoughTheAircraftIsNotAirworthy() throws Exception {
    hands.rulesOf(owner, aircraft, "part-91", BEGAN);
    UUID annual =
        hands.requirement(
            owner,
            aircraft,
            Terms.of(
                "Annual inspection",
                RequirementKind.INSPECTION,
                Rule.first(Limit.Every.of(Interval.ofMonths(12)).toMonthEnd()),
                BEGAN));
    hands.baseline(owner, annual, aircraft, BEGAN, "hours=900");
    UUID order =
        told(
            "2025-04-02",
            8,
            () ->
                orders.draft(
                    owner,
                    aircraft,
                    WorkOrders.Terms.of("Annual"),
                    List.of(
                        NewLine.due(annual, null),
                        NewLine.free("Tyre change", Area.GEAR, Hands.DATA, false)),
                    null));
    told("2025-04-02", 8, () -> done(() -> orders.issue(owner, order, null)));
    assertThatThrownBy(
            () -> told("2025-04-02", 9, () -> release(order, false, List.of("x"), "", null)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Only an inspection");
    told(
        "2025-04-02",
        9,
        () -> sign(first, List.of(asked(order, "Annual", Hands.at(owner, "2025-04-02", 9)))));
    told(
        "2025-04-02",
        10,
        () -> release(order, false, List.of("Spar cap corroded, left"), "", null));
    WorkOrderSheet closed = book.order(owner, order);
    assertThat(closed.state()).isEqualTo(OrderState.NOT_AIRWORTHY);
    assertThat(closed.release().discrepancies())
        .containsExactly("Line 2 is open: Tyre change.", "Spar cap corroded, left");
    assertThat(closed.release().statement()).contains("a list of discrepancies");
    assertThat(due(annual, "2025-04-03")).as("performed").isEqualTo("2026-04-30");
    assertThat(sentences(LocalDate.of(2025, 4, 3)))
        .anyMatch(one -> one.contains("not airworthy on 2 April 2025: 2 discrepancies"));

    // Cleared by ordinary entries: 43.9.
    UUID cure =
        told(
            "2025-05-05",
            9,
            () ->
                orders.draft(
                    owner,
                    aircraft,
                    WorkOrders.Terms.of("Discrepancies"),
                    List.of(
                        NewLine.discrepancy(closed.release().id(), 1),
                        NewLine.discrepancy(closed.release().id(), 2)),
                    null));
    told("2025-05-05", 9, () -> done(() -> orders.issue(owner, cure, null)));
    Instant cured = Hands.at(owner, "2025-05-05", 9);
    told(
        "2025-05-05",
        10,
        () -> sign(first, List.of(asked(cure, "Spar", cured), asked(cure, "Tyre", cured))));
    told("2025-05-05", 11, () -> released(cure, null));
    assertThat(hands.standing(owner, aircraft, LocalDate.of(2025, 5, 5)).isClear()).isTrue();
    assertThat(due(annual, "2025-05-06")).isEqualTo("2026-04-30");
  }

  /** 91.409(a), inspected and approved: by that profile the day of the release counts [V/D]. */
  @Test
  void byTheProfileTheDayOfTheReleaseCounts() throws Exception {
    UUID annual =
        hands.requirement(
            owner,
            aircraft,
            Terms.of(
                "Annual inspection",
                RequirementKind.INSPECTION,
                Rule.first(Limit.Every.of(Interval.ofMonths(12)).toMonthEnd()),
                BEGAN));
    hands.baseline(owner, annual, aircraft, BEGAN, "hours=900");
    hands.rulesOf(owner, aircraft, "part-91", BEGAN);
    UUID order =
        told(
            "2025-03-28",
            8,
            () ->
                orders.draft(
                    owner,
                    aircraft,
                    WorkOrders.Terms.of("Annual"),
                    List.of(NewLine.due(annual, null)),
                    null));
    told("2025-03-28", 8, () -> done(() -> orders.issue(owner, order, null)));
    told(
        "2025-03-28",
        9,
        () -> sign(first, List.of(asked(order, "Annual", Hands.at(owner, "2025-03-28", 9)))));
    assertThat(due(annual, "2025-03-29")).isEqualTo("2026-03-31");
    told("2025-04-02", 9, () -> released(order, null));
    assertThat(due(annual, "2025-04-03")).isEqualTo("2026-04-30");
  }

  @Test
  void aCheckFlightLimitsUntilAPilotHasLoggedIt() {
    UUID order = issued("Aileron rigging");
    sign(first, order, "Aileron");
    UUID release = release(order, true, List.of(), "Rigging of the ailerons changed", null);
    assertThat(hands.standing(owner, aircraft, today()).isLimited()).isTrue();
    assertThat(sentences(today())).anyMatch(one -> one.contains("no passengers"));
    assertThatThrownBy(
            () -> checkFlights.log(first.viewer(), release, "Well", true, time.instant(), null))
        .isInstanceOf(Refusal.class);
    Viewer pilot = company.viewer(Role.PILOT);
    checkFlights.log(pilot, release, "Pulls left", false, time.instant(), null);
    assertThat(hands.standing(owner, aircraft, today()).isLimited()).isTrue();
    checkFlights.log(pilot, release, "Flies straight", true, time.instant(), null);
    assertThat(hands.standing(owner, aircraft, today()).isClear()).isTrue();
  }

  @Test
  void aPermitStandsOverAHold() {
    UUID order = issued("Engine change");
    orders.start(owner, order, null);
    assertThat(hands.standing(owner, aircraft, today()).isHeld()).isTrue();
    UUID permit =
        permits.file(
            owner,
            new FlightPermits.NewPermit(
                aircraft,
                "SFP-9",
                "The authority",
                "Crew only, to Port Maddern",
                today(),
                today().plusDays(2)),
            null);
    var standing = hands.standing(owner, aircraft, today());
    assertThat(standing.isLimited()).isTrue();
    assertThat(standing.reasons().get(0).sentence()).contains("SFP-9", "Crew only");
    assertThat(standing.reasons()).as("what holds is still listed").hasSize(2);
    assertThat(hands.standing(owner, aircraft, today().plusDays(3)).isHeld()).isTrue();
    permits.end(owner, permit, "Flight made", null);
    assertThat(hands.standing(owner, aircraft, today()).isHeld()).isTrue();
  }

  /** 44: M.A.305(a): work completed on 2026-01-05, its release entered by 2026-02-04 [D]. */
  @Test
  void theLateEntryClockRunsFromTheEndOfTheWork() throws Exception {
    UUID order = told("2026-01-05", 8, () -> issued("Oil change"));
    told(
        "2026-01-05",
        9,
        () -> sign(first, List.of(asked(order, "Oil", Hands.at(owner, "2026-01-05", 9)))));
    var partM = profiles.chosen(owner, null, "part-m");
    assertThat(Releases.enterBy(partM, book.order(owner, order))).isEqualTo("2026-02-04");
    var part91 = profiles.chosen(owner, null, "part-91");
    assertThat(Releases.enterBy(part91, book.order(owner, order))).isNull();
  }

  @Test
  void whatWasSignedIsPutRightOrTakenAwayWithASignature() {
    UUID order = issuedControls(1);
    sign(first, order, "Cable 0.");
    OrderLine line = line(order, "Cable 0.");
    UUID work = line.work().id();
    works.inspect(second.viewer(), hands.proof(second), work, "Seen", second.licence(), null);
    NewWork better =
        new NewWork(
            line.line().rowId(),
            Outcome.DONE,
            "Tensioned to 22 lb",
            Hands.DATA,
            "12",
            line.work().at(),
            "",
            null);
    corrections.correct(
        first.viewer(), hands.proof(first), work, better, first.licence(), "Figure left out", null);
    OrderLine corrected = line(order, "Cable 0.");
    assertThat(corrected.work().words()).isEqualTo("Tensioned to 22 lb");
    assertThat(corrected.earlier()).hasSize(1);
    assertThat(corrected.awaitsInspection()).as("inspected anew").isTrue();
    assertThatThrownBy(
            () ->
                corrections.correct(
                    first.viewer(),
                    hands.proof(first),
                    work,
                    better,
                    first.licence(),
                    "Again",
                    null))
        .isInstanceOf(Stale.class);
    corrections.takeAway(
        first.viewer(),
        hands.proof(first),
        corrected.work().id(),
        first.licence(),
        "Other aircraft",
        null);
    assertThat(line(order, "Cable 0.").isSigned()).isFalse();
    sign(second, order, "Cable 0.");
    assertThat(line(order, "Cable 0.").work().workerName()).isEqualTo("Olaf Sedge");
  }

  @Test
  void nothingStartsBeforeTheOwnerApproves() {
    UUID order =
        orders.draft(
            owner,
            aircraft,
            new WorkOrders.Terms("Paint", "", "", null, null, true),
            List.of(NewLine.free("Paint it", Area.FUSELAGE, Hands.DATA, false)),
            null);
    assertThatThrownBy(() -> sign(first, order, "Paint"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("issue it first");
    orders.issue(owner, order, null);
    assertThatThrownBy(() -> sign(first, order, "Paint"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("not approved");
    assertThatThrownBy(() -> orders.approve(first.viewer(), order, "", null))
        .isInstanceOf(Refusal.class);
    orders.approve(owner, order, "Up to 900", null);
    sign(first, order, "Paint");
    assertThatThrownBy(() -> orders.cancel(owner, order, "No money", null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("ends with a release");
  }

  @Test
  void anotherOperatorSeesNothing() {
    UUID order = issued("Oil change");
    Viewer stranger = hands.company().viewer(Role.OWNER);
    assertThatThrownBy(() -> book.order(stranger, order)).isInstanceOf(NotHere.class);
  }

  @Test
  void aHundredLinesTakeNoMoreStatementsThanOne() throws Exception {
    UUID small = issuedControls(1);
    UUID large = issuedControls(100);
    int few = StatementCount.of(() -> book.order(owner, small)).size();
    assertThat(StatementCount.of(() -> book.order(owner, large))).hasSize(few);
  }

  private interface Press {
    Object by(Engineer one);
  }

  /** How many of people who press at once succeed; the others are told, and by nothing else. */
  private static int winners(List<Engineer> people, Press press) throws Exception {
    AtomicInteger won = new AtomicInteger();
    List<Callable<Integer>> presses = new ArrayList<>();
    for (Engineer one : people) {
      presses.add(
          () -> {
            try {
              press.by(one);
              won.incrementAndGet();
            } catch (Stale | Refusal told) {
              return 1;
            }
            return 0;
          });
    }
    atOnce(presses);
    return won.get();
  }

  private static <T> List<T> atOnce(List<Callable<T>> presses) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(presses.size());
    try {
      List<T> answers = new ArrayList<>();
      for (Future<T> each : pool.invokeAll(presses)) {
        answers.add(each.get());
      }
      return answers;
    } finally {
      pool.shutdownNow();
    }
  }

  private UUID issued(String... titles) {
    List<NewLine> asked = new ArrayList<>();
    for (String title : titles) {
      asked.add(NewLine.free(title, Area.OTHER, Hands.DATA, false));
    }
    return issued(asked);
  }

  /** Lines that a second person inspects: "Cable 0.", "Cable 1." … */
  private UUID issuedControls(int size) {
    List<NewLine> asked = new ArrayList<>();
    for (int i = 0; i < size; i++) {
      asked.add(NewLine.free("Cable " + i + ".", Area.FLIGHT_CONTROLS, Hands.DATA, false));
    }
    return issued(asked);
  }

  private UUID issued(List<NewLine> asked) {
    UUID order = orders.draft(owner, aircraft, WorkOrders.Terms.of("Work"), asked, null);
    orders.issue(owner, order, null);
    return order;
  }

  private OrderLine line(UUID order, String words) {
    return book.order(owner, order).lines().stream()
        .filter(one -> one.line().title().contains(words))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no line " + words));
  }

  private NewWork asked(UUID order, String words, Instant at) {
    return NewWork.done(line(order, words).line().rowId(), "Done as written", Hands.DATA, at);
  }

  private void sign(Engineer by, UUID order, String words) {
    sign(by, order, words, time.instant());
  }

  private void sign(Engineer by, UUID order, String words, Instant at) {
    sign(by, List.of(asked(order, words, at)));
  }

  private List<UUID> sign(Engineer by, List<NewWork> asked) {
    return sign(by, hands.proof(by), asked);
  }

  private List<UUID> sign(Engineer by, Proof proof, List<NewWork> asked) {
    return works.sign(by.viewer(), proof, by.licence(), asked, null);
  }

  private UUID released(UUID order, UUID key) {
    return releases.release(
        first.viewer(),
        hands.proof(first),
        new Releases.NewRelease(
            order,
            true,
            List.of(),
            "",
            "",
            first.licence(),
            key != null && book.order(owner, order).state().isOver()
                ? ""
                : Releases.seen(book.order(owner, order))),
        key);
  }

  private UUID release(
      UUID order, boolean airworthy, List<String> found, String checkFlight, String seen) {
    String read = seen == null ? Releases.seen(book.order(owner, order)) : seen;
    return releases.release(
        first.viewer(),
        hands.proof(first),
        new Releases.NewRelease(order, airworthy, found, checkFlight, "", first.licence(), read),
        null);
  }

  private List<Block.Why> whys(UUID order) {
    return blocks.of(owner, book.order(owner, order)).stream().map(Block::why).toList();
  }

  private List<String> sentences(LocalDate day) {
    return hands.standing(owner, aircraft, day).reasons().stream()
        .map(reason -> reason.sentence())
        .toList();
  }

  private String due(UUID requirement, String day) {
    return hands
        .due(owner, requirement, aircraft, LocalDate.parse(day))
        .controlling()
        .dueOn()
        .toString();
  }

  private UUID engine(UUID of) {
    return components
        .fittings(owner, List.of(of), trestle.ledger.View.EVERYTHING)
        .get(of)
        .get(0)
        .componentId();
  }

  private static String refused(String statement) throws SQLException {
    try (var connection = TestDatabase.asSuperuser();
        var asking = connection.createStatement()) {
      asking.execute(statement);
      throw new AssertionError("Not refused: " + statement);
    } catch (SQLException refusal) {
      return refusal.getMessage();
    }
  }

  private <T> T told(String day, int hour, Callable<T> work) throws Exception {
    return clock.telling(Hands.at(owner, day, hour).plusSeconds(60), work);
  }

  private static Void done(Runnable work) {
    work.run();
    return null;
  }

  private LocalDate today() {
    return owner.dateOf(time.instant());
  }
}
