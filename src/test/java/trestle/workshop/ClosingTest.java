package trestle.workshop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.defects.CertifiedWork;
import trestle.defects.DefectBook;
import trestle.defects.DefectDraft;
import trestle.defects.Defects;
import trestle.defects.Judgement;
import trestle.defects.Rectifications;
import trestle.people.Company;
import trestle.programme.RequirementKind;
import trestle.programme.Terms;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.standing.Standing;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;
import trestle.workshop.Hands.Engineer;

/** What a release may rest on, what it settles, and what is put right after it. */
@QuarkusTest
class ClosingTest {
  private static final LocalDate BEGAN = LocalDate.of(2024, 6, 1);
  private static final NewWork.Finding CHAFED =
      new NewWork.Finding("Fairing chafed", Area.CABIN, null);

  @Inject Hands hands;
  @Inject InstantSource clock;
  @Inject WorkOrders orders;
  @Inject OrderBook book;
  @Inject LineWorks works;
  @Inject LineCorrections corrections;
  @Inject LinesLeftOpen leaving;
  @Inject Releases releases;
  @Inject Blocks blocks;
  @Inject WorkReadings readings;
  @Inject Defects defects;
  @Inject DefectBook defectBook;
  @Inject Rectifications rectifications;

  private static Company company;
  private static Engineer first;
  private static Engineer second;
  private static int count;
  private Viewer owner;
  private UUID aircraft;

  @BeforeEach
  void found() {
    if (company == null) {
      company = hands.company();
      first = hands.engineer(company, "Una Reed", "airframe", null);
      second = hands.engineer(company, "Olaf Sedge", "airframe, IA", null);
      hands.rules(company.viewer(Role.OWNER), "part-91", BEGAN);
    }
    owner = company.viewer(Role.OWNER);
    aircraft = hands.aircraft(owner, "QX-CL" + ++count, BEGAN, "hours=900 landings=2000");
  }

  @Test
  void aFindingSparesNobodyTheSecondPerson() {
    UUID order = issued(NewLine.free("Elevator cable", Area.FLIGHT_CONTROLS, Hands.DATA, false));
    sign(first, found(order, "Elevator cable", CHAFED));
    OrderLine line = line(order, "Elevator cable");
    assertThat(line.awaitsInspection()).isTrue();
    assertThat(blocks.of(owner, book.order(owner, order)))
        .extracting(Block::why)
        .contains(Block.Why.INSPECTION_MISSING, Block.Why.LINE_OPEN);
    assertThat(line(order, "Fairing").line().independent())
        .as("it grew out of work that a second person inspects")
        .isTrue();
    look(second, line);
    sign(first, done(order, "Fairing"));
    assertThatThrownBy(() -> release(first, order)).isInstanceOf(Refusal.class);
    look(second, line(order, "Fairing"));
    release(first, order);
    assertThat(standing().isClear()).isTrue();
  }

  @Test
  void workWithAFindingPutsTheDefectRight() {
    UUID defect =
        hands.defect(owner, aircraft, "Tyre worn", Judgement.MUST_NOT_FLY, clock.instant());
    UUID order = issued(NewLine.defect(defect));
    sign(first, found(order, "Tyre worn", new NewWork.Finding("Disc worn", Area.GEAR, null)));
    sign(first, done(order, "Disc worn"));
    release(first, order);
    assertThat(defectBook.entry(owner, defect).isOpen()).isFalse();
    assertThat(standing().isClear()).isTrue();
  }

  @Test
  void whatDoesNotApplyPutsNothingRight() {
    UUID found = notAirworthy("Landing light dead");
    UUID order = issued(NewLine.discrepancy(found, 1));
    sign(first, notApplicable(order, "Landing light"));
    release(first, order);
    assertThat(standing().isHeld()).isTrue();
    UUID again = issued(NewLine.discrepancy(found, 1));
    sign(first, found(again, "Landing light", new NewWork.Finding("Lens cracked", null, null)));
    sign(first, done(again, "Lens"));
    release(first, again);
    assertThat(standing().isClear()).isTrue();
  }

  @Test
  void anInspectionThatDoesNotApplyIsNotCertified() {
    UUID annual = annual();
    UUID order =
        issued(NewLine.due(annual, null), NewLine.free("Oil", Area.ENGINE, Hands.DATA, false));
    sign(first, notApplicable(order, "Annual"));
    sign(first, done(order, "Oil"));
    assertThatThrownBy(() -> release(first, order, false, List.of("Spar cracked")))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Only an inspection");
    UUID release = release(first, order);
    assertThat(releases.one(owner, release).statement())
        .contains("only for the work performed")
        .doesNotContain("annual");
  }

  /** 14 CFR 43.11(a)(5) for the inspection, 43.9(a)(4) for the work that was done beside it. */
  @Test
  void workBesideADisapprovedInspectionIsApprovedForItself() {
    UUID order =
        issued(NewLine.due(annual(), null), NewLine.free("Oil", Area.ENGINE, Hands.DATA, false));
    sign(first, done(order, "Annual"));
    sign(first, done(order, "Oil"));
    UUID release = release(first, order, false, List.of("Spar cracked"));
    assertThat(releases.one(owner, release).statement())
        .contains("a list of discrepancies", "only for the work performed");
    UUID alone = notAirworthy("Spar cracked");
    assertThat(releases.one(owner, alone).statement()).doesNotContain("work performed");
  }

  @Test
  void aDiscrepancyLeftOpenOnAuthorityLimitsUntilItIsDone() {
    UUID found = notAirworthy("Landing light dead");
    UUID order =
        issued(NewLine.discrepancy(found, 1), NewLine.free("Oil", Area.ENGINE, Hands.DATA, false));
    sign(first, done(order, "Oil"));
    OrderLine light = line(order, "Landing light");
    leaving.leave(
        first.viewer(),
        hands.proof(first),
        light.line().rowId(),
        new LinesLeftOpen.Leaving("Placarded", "The owner", "91.213(d)", today().plusDays(30)),
        first.licence(),
        null);
    release(first, order);
    assertThat(standing().isLimited()).isTrue();
    assertThat(standing().reasons().get(0).sentence())
        .contains("on the authority of The owner", "Landing light");
    assertThat(hands.standing(owner, aircraft, today().plusDays(31)).isHeld()).isTrue();
    UUID later = issued(NewLine.putOff(light.line().id()));
    sign(first, done(later, "Landing light"));
    release(first, later);
    assertThat(standing().isClear()).as("done once, by whichever line").isTrue();
  }

  @Test
  void whoeverCertifiesAnInspectionIsRatedForIt() {
    UUID annual = annual();
    UUID order =
        issued(new NewLine(WorkLine.REQUIREMENT, annual, null, 0, "", null, "", "IA", false));
    sign(second, done(order, "Annual"));
    assertThatThrownBy(() -> release(first, order))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("asks for IA");
    release(second, order);
  }

  @Test
  void readingsStartTheWorkAndStandOnceSigned() {
    UUID order = issued(NewLine.free("Compression test", Area.ENGINE, Hands.DATA, false));
    UUID line = line(order, "Compression").line().id();
    take(line, "72");
    assertThat(standing().isHeld()).as("work has begun").isTrue();
    UUID reading = readings.ofLine(owner, line).get(0).reading().id();
    sign(first, done(order, "Compression"));
    assertThatThrownBy(() -> take(line, "71")).isInstanceOf(Stale.class);
    assertThatThrownBy(() -> readings.takeAway(first.viewer(), reading, "Wrong", null))
        .isInstanceOf(Stale.class)
        .hasMessageContaining("its readings stand");
    release(first, order);
    assertThatThrownBy(() -> readings.takeAway(first.viewer(), reading, "Wrong", null))
        .isInstanceOf(Stale.class);
  }

  @Test
  void whatAReleaserDidNotReadIsNotSigned() {
    UUID order = issued(NewLine.free("Oil", Area.ENGINE, Hands.DATA, false));
    sign(first, done(order, "Oil"));
    String told = releases.told(first.viewer(), book.order(owner, order));
    hands.flyTo(owner, aircraft, "901", today().minusDays(1));
    assertThatThrownBy(() -> release(first, order, told))
        .isInstanceOf(Stale.class)
        .hasMessageContaining("changed since you read it");
    release(first, order, releases.told(first.viewer(), book.order(owner, order)));
  }

  @Test
  void wordsArePutRightAfterTheReleaseToo() {
    UUID order = issued(NewLine.free("Aileron", Area.FLIGHT_CONTROLS, Hands.DATA, false));
    sign(first, done(order, "Aileron"));
    look(second, line(order, "Aileron"));
    release(first, order);
    OrderLine line = line(order, "Aileron");
    NewWork better =
        new NewWork(
            line.line().rowId(),
            Outcome.DONE,
            "Rigged to 22 lb",
            Hands.DATA,
            "12",
            line.work().at(),
            "",
            null);
    UUID corrected = correct(line, better);
    assertThat(line(order, "Aileron").work().words()).isEqualTo("Rigged to 22 lb");
    assertThat(book.order(owner, order).state()).isEqualTo(OrderState.RELEASED);
    assertThat(standing().isClear()).isTrue();
    look(second, line(order, "Aileron"));
    assertThatThrownBy(
            () ->
                corrections.takeAway(
                    first.viewer(), hands.proof(first), corrected, first.licence(), "No", null))
        .as("what was released was done")
        .isInstanceOf(Stale.class);
    NewWork earlier =
        NewWork.done(
            line.line().rowId(), "Rigged", Hands.DATA, line.work().at().minusSeconds(3_600));
    assertThatThrownBy(() -> correct(line(order, "Aileron"), earlier))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("it stays");
  }

  @Test
  void controlsAreNotPutRightByOnePerson() {
    UUID defect =
        defects
            .report(
                owner,
                aircraft,
                new DefectDraft(
                    "Elevator cable frayed",
                    "27",
                    "",
                    null,
                    null,
                    Judgement.MUST_NOT_FLY,
                    null,
                    false,
                    "",
                    clock.instant()),
                List.of(),
                null,
                null)
            .entryId();
    assertThatThrownBy(
            () ->
                rectifications.rectify(
                    first.viewer(),
                    hands.proof(first),
                    defect,
                    new CertifiedWork("Replaced", Hands.DATA, first.licence(), clock.instant()),
                    null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("put this defect on a work order");
    UUID order = issued(NewLine.defect(defect));
    sign(first, done(order, "Elevator cable"));
    look(second, line(order, "Elevator cable"));
    release(first, order);
    assertThat(defectBook.entry(owner, defect).isOpen()).isFalse();
  }

  @Test
  void aLimitInPsiJudgesOnlyTheSupplyItIsFor() {
    ReadingVerdict.Limit limit =
        new ReadingVerdict.Limit(
            ReadingKind.COMPRESSION, new BigDecimal("60"), null, false, "Example data");
    UUID order = issued(NewLine.free("Compression test", Area.ENGINE, Hands.DATA, false));
    UUID line = line(order, "Compression").line().id();
    take(line, "65");
    ReadingSheet at80 = readings.ofLine(owner, line).get(0).reading();
    assertThat(ReadingVerdict.of(at80, limit).within()).isTrue();
    readings.file(first.viewer(), taken(line, "65", new BigDecimal("100")), null);
    ReadingSheet at100 = readings.ofLine(owner, line).get(1).reading();
    assertThat(ReadingVerdict.of(at100, limit).within()).isNull();
    assertThat(ReadingVerdict.of(at100, limit).words()).contains("supply of 100 psi");
  }

  private UUID correct(OrderLine line, NewWork asked) {
    return corrections.correct(
        first.viewer(),
        hands.proof(first),
        line.work().id(),
        asked,
        first.licence(),
        "Figure left out",
        null);
  }

  private void take(UUID line, String value) {
    readings.file(first.viewer(), taken(line, value, null), null);
  }

  private WorkReadings.Taken taken(UUID line, String value, BigDecimal supply) {
    return new WorkReadings.Taken(
        line,
        null,
        ReadingKind.COMPRESSION,
        supply,
        null,
        List.of(new WorkReadings.One("Cylinder 1", new BigDecimal(value), "")),
        clock.instant());
  }

  private UUID annual() {
    UUID made =
        hands.requirement(
            owner,
            aircraft,
            Terms.of(
                "Annual inspection",
                RequirementKind.INSPECTION,
                Rule.first(Limit.Every.of(Interval.ofMonths(12))),
                BEGAN));
    hands.baseline(owner, made, aircraft, today().minusDays(100), "hours=900");
    return made;
  }

  /** A release that found the aircraft not airworthy, for one reason. */
  private UUID notAirworthy(String why) {
    UUID order = issued(NewLine.due(annual(), null));
    sign(first, done(order, "Annual"));
    return release(first, order, false, List.of(why));
  }

  private UUID issued(NewLine... lines) {
    UUID order = orders.draft(owner, aircraft, WorkOrders.Terms.of("Work"), List.of(lines), null);
    orders.issue(owner, order, null);
    return order;
  }

  private OrderLine line(UUID order, String words) {
    return book.order(owner, order).lines().stream()
        .filter(one -> one.line().title().contains(words))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no line " + words));
  }

  private NewWork done(UUID order, String words) {
    return NewWork.done(row(order, words), "Done as written", Hands.DATA, clock.instant());
  }

  private NewWork found(UUID order, String words, NewWork.Finding finding) {
    return NewWork.found(row(order, words), "Done", Hands.DATA, clock.instant(), finding);
  }

  private NewWork notApplicable(UUID order, String words) {
    return NewWork.notApplicable(row(order, words), "Not on this aircraft", clock.instant());
  }

  private UUID row(UUID order, String words) {
    return line(order, words).line().rowId();
  }

  private void sign(Engineer by, NewWork work) {
    works.sign(by.viewer(), hands.proof(by), by.licence(), new ArrayList<>(List.of(work)), null);
  }

  private void look(Engineer by, OrderLine line) {
    works.inspect(by.viewer(), hands.proof(by), line.work().id(), "Seen", by.licence(), null);
  }

  private UUID release(Engineer by, UUID order) {
    return release(by, order, true, List.of());
  }

  private UUID release(Engineer by, UUID order, boolean airworthy, List<String> why) {
    return releases.release(
        by.viewer(),
        hands.proof(by),
        new Releases.NewRelease(
            order, airworthy, why, "", "", by.licence(), Releases.seen(book.order(owner, order))),
        null);
  }

  private UUID release(Engineer by, UUID order, String told) {
    return releases.release(
        by.viewer(),
        hands.proof(by),
        new Releases.NewRelease(
            order,
            true,
            List.of(),
            "",
            "",
            by.licence(),
            Releases.Progressive.NONE,
            Releases.seen(book.order(owner, order)),
            told),
        null);
  }

  private Standing standing() {
    return hands.standing(owner, aircraft, today());
  }

  private LocalDate today() {
    return owner.dateOf(clock.instant());
  }
}
