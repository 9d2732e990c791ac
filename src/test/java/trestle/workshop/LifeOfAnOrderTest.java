package trestle.workshop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.defects.DefectBook;
import trestle.defects.Judgement;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.PartKind;
import trestle.fleet.Spot;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.programme.ComplianceLine;
import trestle.programme.ComplianceRecords;
import trestle.programme.RequirementKind;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.server.TheClock;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;
import trestle.workshop.Hands.Engineer;

/**
 * The life of a work order: flights, what falls due, the order, findings, the inspection by two
 * people, the release, what is due next. Days and hours are those of the regulations' own cases:
 * the number and the source stand at each; Q read as a quotation, D the rule published and the
 * arithmetic ours.
 */
@QuarkusTest
class LifeOfAnOrderTest {
  private static final LocalDate BEGAN = LocalDate.of(2024, 6, 1);
  private static final Rule HUNDRED =
      Rule.first(Limit.Every.of(Counter.HOURS, "100").tolerance("10").keepSchedule());
  private static final Rule ANNUAL = Rule.first(Limit.Every.of(Interval.ofMonths(12)).toMonthEnd());

  @Inject Hands hands;
  @Inject TheClock clock;
  @Inject WorkOrders orders;
  @Inject WorkLines lines;
  @Inject LineWorks works;
  @Inject PartUses parts;
  @Inject Releases releases;
  @Inject Blocks blocks;
  @Inject OrderBook book;
  @Inject TaskLists taskLists;
  @Inject DefectBook defects;
  @Inject ComplianceRecords complianceRecords;
  @Inject Components components;
  @Inject Fitments fitments;

  private Company company;
  private Viewer owner;
  private Viewer pilot;
  private Engineer first;
  private Engineer second;
  private UUID aircraft;
  private UUID hundred;
  private UUID annual;

  @BeforeEach
  void found() {
    company = hands.company();
    owner = company.viewer(Role.OWNER);
    pilot = company.viewer(Role.PILOT);
    first = hands.engineer(company, "Una Reed", "airframe, engine", null);
    second = hands.engineer(company, "Olaf Sedge", "airframe, engine", null);
    hands.rules(owner, "part-91", BEGAN);
    aircraft = hands.aircraft(owner, "QX-LIF", BEGAN, "hours=900 landings=2000");
    hundred = required("100-hour inspection", HUNDRED);
    annual =
        hands.requirement(
            owner,
            aircraft,
            Terms.of("Annual inspection", RequirementKind.INSPECTION, ANNUAL, BEGAN)
                .covering(hundred));
    hands.baseline(owner, hundred, aircraft, BEGAN, "hours=900");
    hands.baseline(owner, annual, aircraft, BEGAN, "hours=900");
  }

  @Test
  void fromTheFlightsToTheNextDuePoints() throws Exception {
    taskLists.revise(
        owner,
        annual,
        null,
        TaskText.parse(
            """
            Engine and nacelle:
            Compression | Example manual 72-10
            Alternator bracket | Example manual 24-30
            Engine controls:
            Mixture control, travel and safetying | Example manual 76-10
            Cabin and cockpit:
            Belts | Example manual 25-10
            """),
        "The authority",
        "",
        null);
    // 9: 14 CFR 91.409(b): due at 1,000.0, flown on to where it can be done, at 1,006.0 [D].
    hands.flyTo(pilot, aircraft, "1006", LocalDate.of(2025, 3, 9));
    UUID charging =
        hands.defect(
            pilot, aircraft, "Charging light on", Judgement.MUST_NOT_FLY, at("2025-03-09", 20));
    UUID old = spare("AL-17");
    UUID fresh = spare("AL-32");
    UUID engine =
        components
            .fittings(owner, List.of(aircraft), View.EVERYTHING)
            .get(aircraft)
            .get(0)
            .componentId();
    fitments.fit(
        owner,
        new Fitments.Fit(old, Spot.in(engine, "alternator"), Hands.start(owner, BEGAN), null));

    UUID order =
        told(
            "2025-03-10",
            9,
            () ->
                orders.draft(
                    owner,
                    aircraft,
                    WorkOrders.Terms.of("Annual and alternator"),
                    List.of(NewLine.due(annual, null), NewLine.defect(charging)),
                    null));
    WorkOrderSheet drawn = book.order(owner, order);
    assertThat(drawn.order().no()).isEqualTo("WO 2025-001");
    assertThat(drawn.state()).isEqualTo(OrderState.DRAFT);
    assertThat(drawn.lines()).hasSize(6);
    assertThat(line(drawn, "Mixture").line().independent()).isTrue();

    told("2025-03-10", 10, () -> done(() -> orders.issue(owner, order, null)));
    assertThat(book.order(owner, order).state()).isEqualTo(OrderState.ISSUED);
    told("2025-03-10", 11, () -> done(() -> orders.start(owner, order, null)));
    assertThat(reasons("2025-03-10")).anyMatch(one -> one.contains("in work and not released"));

    // An inspection is signed when its tasks are.
    assertThatThrownBy(() -> sign(first, "2025-03-10", 12, "Annual inspection"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("4 tasks");
    sign(first, "2025-03-10", 13, "Compression", "Mixture");
    found(
        "2025-03-10",
        "Alternator bracket",
        new NewWork.Finding("Bracket cracked through", null, null));
    found(
        "2025-03-10",
        "Belts",
        new NewWork.Finding("Right belt frayed", null, Judgement.MUST_NOT_FLY));
    WorkOrderSheet looked = book.order(owner, order);
    assertThat(line(looked, "Bracket cracked").line().originWords()).isEqualTo("Finding");
    UUID frayed = line(looked, "Belts").work().foundDefect();

    // The two people: nobody inspects their own work.
    UUID mixture = line(looked, "Mixture").work().id();
    assertThatThrownBy(() -> inspect(first, mixture))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("a second person");
    inspect(second, mixture);
    assertThatThrownBy(() -> inspect(second, mixture)).isInstanceOf(Stale.class);

    told(
        "2025-03-10",
        15,
        () ->
            parts.off(
                first.viewer(),
                new PartUses.Off(
                    line(looked, "Charging").line().id(),
                    old,
                    at("2025-03-10", 14),
                    "No output",
                    false),
                null));
    told(
        "2025-03-10",
        15,
        () ->
            parts.on(
                first.viewer(),
                new PartUses.On(
                    line(looked, "Charging").line().id(),
                    fresh,
                    Spot.in(engine, "alternator"),
                    at("2025-03-10", 15),
                    ""),
                null));
    assertThat(components.history(owner, fresh, View.EVERYTHING).fitted().aircraftId())
        .isEqualTo(aircraft);
    assertThat(components.history(owner, old, View.EVERYTHING).fitted()).isNull();
    sign(first, "2025-03-10", 17, "Charging", "Bracket cracked");

    // 1: 14 CFR 91.409(a): annual approved on 2025-03-11, good through 2026-03-31 [D].
    sign(first, "2025-03-11", 10, "Annual inspection");
    ComplianceLine inspected =
        complianceRecords.history(owner, List.of(annual), aircraft, null, View.EVERYTHING).stream()
            .filter(one -> !one.baseline())
            .findFirst()
            .orElseThrow();
    assertThat(inspected.on()).isEqualTo("2025-03-11");
    assertThat(inspected.signed().units(Counter.HOURS)).isEqualTo(1_006 * 3_600L);
    assertThat(inspected.workReference()).isEqualTo("WO 2025-001, line 1");
    assertThat(reasons("2025-03-11"))
        .as("inspected is not released: 14 CFR 91.407(a)")
        .anyMatch(one -> one.contains("in work and not released"));

    assertThat(whys(order))
        .containsExactlyInAnyOrder(Block.Why.FINDING_OPEN, Block.Why.EVIDENCE_MISSING);
    assertThatThrownBy(() -> release("2025-03-11", 12, order, ""))
        .isInstanceOfSatisfying(Refusal.class, refusal -> assertThat(refusal.reasons()).hasSize(2));
    UUID part =
        line(book.order(owner, order), "Charging").parts().stream()
            .filter(one -> !one.isOff())
            .findFirst()
            .orElseThrow()
            .id();
    told(
        "2025-03-11",
        12,
        () ->
            done(
                () ->
                    parts.evidence(
                        first.viewer(), part, "Certificate RC-7719", "Came by post", null)));
    told("2025-03-11", 13, () -> lines.add(owner, order, List.of(NewLine.defect(frayed)), null));
    UUID belt = line(book.order(owner, order), "Right belt").line().id();
    told(
        "2025-03-11",
        13,
        () ->
            parts.used(
                first.viewer(),
                new PartUses.Used(
                    belt,
                    "used",
                    PartKept.MATERIAL,
                    "Thread",
                    "T-9",
                    "",
                    "B-4",
                    BigDecimal.TEN,
                    "m",
                    "Statement 12"),
                null));
    sign(first, "2025-03-11", 14, "Right belt");
    assertThat(whys(order)).isEmpty();
    assertThat(book.order(owner, order).state()).isEqualTo(OrderState.AWAITING_RELEASE);

    UUID release = release("2025-03-11", 15, order, "");
    assertThat(book.order(owner, order).state()).isEqualTo(OrderState.RELEASED);
    ReleaseSheet sheet = releases.one(owner, release);
    // 43.11(a)(4), and the example's words for other work.
    assertThat(sheet.statement())
        .contains("was determined to be in airworthy condition", "only for the work performed");
    assertThat(Totals.read(sheet.times()).get(0).hours()).isEqualTo("1006");
    assertThat(defects.entry(owner, charging).isOpen()).isFalse();
    assertThat(defects.entry(owner, charging).rectification().done()).contains("WO 2025-001");
    assertThat(defects.entry(owner, frayed).isOpen()).isFalse();
    assertThat(hands.standing(owner, aircraft, LocalDate.of(2025, 3, 11)).isClear())
        .as(reasons("2025-03-11").toString())
        .isTrue();
    // 9: the excess counts into the next: 1,100.0; the annual covers the 100-hour.
    assertThat(
            hands
                .due(owner, hundred, aircraft, LocalDate.of(2025, 3, 12))
                .controlling()
                .dueAt()
                .toString())
        .isEqualTo("1100");
    assertThat(hands.due(owner, annual, aircraft, LocalDate.of(2025, 3, 12)).controlling().dueOn())
        .isEqualTo("2026-03-31");
    assertThatThrownBy(() -> sign(first, "2025-03-12", 9, "Right belt")).isInstanceOf(Stale.class);

    String beforeFlight =
        company.visitor(Role.PILOT).get("/aircraft/" + aircraft + "/pre-flight").asString();
    assertThat(beforeFlight)
        .contains(
            "Last release: <a href=\"/work-orders/" + order + "\">WO 2025-001",
            "released on 11 March 2025, Una Reed");
    assertThat(company.visitor(Role.PILOT).get("/aircraft/" + aircraft + "/sheet").asString())
        .contains("released on 11 March 2025, Una Reed");
  }

  private UUID required(String title, Rule rule) {
    return hands.requirement(
        owner, aircraft, Terms.of(title, RequirementKind.INSPECTION, rule, BEGAN));
  }

  private UUID spare(String serial) {
    return hands.component(owner, PartKind.OTHER, "AL24", serial, "Alternator", BEGAN);
  }

  private List<String> reasons(String day) {
    List<String> all = new ArrayList<>();
    hands
        .standing(owner, aircraft, LocalDate.parse(day))
        .reasons()
        .forEach(reason -> all.add(reason.sentence()));
    return all;
  }

  private List<Block.Why> whys(UUID order) {
    return blocks.of(owner, book.order(owner, order)).stream().map(Block::why).toList();
  }

  private OrderLine line(WorkOrderSheet sheet, String words) {
    return sheet.lines().stream()
        .filter(one -> one.line().title().contains(words))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no line " + words));
  }

  private WorkOrderSheet newest() {
    return book.page(owner, aircraft, false, 1).orders().get(0);
  }

  private void sign(Engineer by, String day, int hour, String... words) throws Exception {
    WorkOrderSheet sheet = newest();
    List<NewWork> asked = new ArrayList<>();
    for (String each : words) {
      asked.add(
          NewWork.done(
              line(sheet, each).line().rowId(), "Done as written", Hands.DATA, at(day, hour)));
    }
    told(day, hour, () -> works.sign(by.viewer(), hands.proof(by), by.licence(), asked, null));
  }

  private void found(String day, String words, NewWork.Finding finding) throws Exception {
    UUID row = line(newest(), words).line().rowId();
    told(
        day,
        14,
        () ->
            works.sign(
                first.viewer(),
                hands.proof(first),
                first.licence(),
                List.of(NewWork.found(row, "Looked at", Hands.DATA, at(day, 14), finding)),
                null));
  }

  private void inspect(Engineer by, UUID work) throws Exception {
    told(
        "2025-03-10",
        15,
        () -> works.inspect(by.viewer(), hands.proof(by), work, "Seen", by.licence(), null));
  }

  private UUID release(String day, int hour, UUID order, String checkFlight) throws Exception {
    return told(
        day,
        hour,
        () ->
            releases.release(
                first.viewer(),
                hands.proof(first),
                new Releases.NewRelease(
                    order,
                    true,
                    List.of(),
                    checkFlight,
                    "",
                    first.licence(),
                    Releases.seen(book.order(owner, order))),
                null));
  }

  private java.time.Instant at(String day, int hour) {
    return Hands.at(owner, day, hour);
  }

  private <T> T told(String day, int hour, Callable<T> work) throws Exception {
    return clock.telling(at(day, hour).plusSeconds(60), work);
  }

  private static Void done(Runnable work) {
    work.run();
    return null;
  }
}
