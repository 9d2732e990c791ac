package trestle.workshop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.defects.Judgement;
import trestle.defects.Snaps;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.OwnPlaces;
import trestle.people.Visitor;
import trestle.profiles.PilotTask;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;
import trestle.workshop.Hands.Engineer;

/** What stands beside the signed work: readings, costs, the engineer's list, pilots' own work. */
@QuarkusTest
class BesideTheWorkTest {
  private static final LocalDate BEGAN = LocalDate.of(2024, 6, 1);
  private static final String USUAL = PilotTask.labels().get(0);

  @Inject Hands hands;
  @Inject InstantSource clock;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject OwnPlaces places;
  @Inject WorkOrders orders;
  @Inject OrderBook book;
  @Inject WorkReadings readings;
  @Inject WorkCosts costs;
  @Inject WorkshopSettings settings;
  @Inject EngineerList engineers;
  @Inject PilotWorks pilots;
  @Inject Totals totals;

  private static Company company;
  private static Engineer first;
  private static int count;
  private Viewer owner;
  private UUID aircraft;
  private UUID engine;
  private UUID order;
  private UUID line;

  @BeforeEach
  void found() {
    if (company == null) {
      company = hands.company();
      first = hands.engineer(company, "Una Reed", "engine", null);
      hands.rules(company.viewer(Role.OWNER), "part-91", BEGAN);
    }
    owner = company.viewer(Role.OWNER);
    aircraft = hands.aircraft(owner, "QX-BE" + ++count, BEGAN, "hours=900 landings=2000");
    engine = totals.at(owner, aircraft, clock.instant()).get(1).componentId();
    order = draft(false);
    orders.issue(owner, order, null);
    line = book.order(owner, order).lines().get(0).line().id();
  }

  @Test
  void readingsAreJudgedOnlyByTheirOwnLimit() {
    take(ReadingKind.COMPRESSION, "43", one("Cylinder 1", "72"), one("Cylinder 2", "59"));
    assertThat(verdicts()).containsOnly("No verdict: no limit of its own is stated.");

    // FAA AC 43.13-1B, 8-14, as quoted: a limit that somebody states, no default; cases 53.
    limit(ReadingKind.COMPRESSION, "60", null, false);
    assertThat(judged())
        .containsExactly(
            "72/80, 10 % lost, reference orifice 43 true",
            "59/80, 26.25 % lost, reference orifice 43 false");
    limit(ReadingKind.COMPRESSION, null, null, true);
    assertThat(judged()).allMatch(one -> one.endsWith("true"));
    assertThat(readings.ofComponent(owner, engine)).hasSize(2);

    limit(ReadingKind.MAGNETO_DROP, null, "125", false);
    take(ReadingKind.MAGNETO_DROP, null, one("Left magneto", "150"));
    assertThat(readings.ofLine(owner, line).get(2).verdict().words())
        .isEqualTo("Above 125: act by Example data.");
    UUID wrong = readings.ofLine(owner, line).get(2).reading().id();
    readings.takeAway(first.viewer(), wrong, "Another aircraft", null);
    assertThat(readings.ofLine(owner, line)).hasSize(2);
    assertThatThrownBy(() -> readings.takeAway(first.viewer(), wrong, "Again", null))
        .isInstanceOf(Stale.class);
  }

  @Test
  void impossibleReadingsAreRefusedWithASentence() {
    refused("Cylinder 1 must be from 0 to the supply of 80 psi, not 81", "81", null);
    refused("Cylinder 1 must be from 0 to the supply of 80 psi, not -1", "-1", null);
    refused("Reference orifice must be from 0 to the supply", "70", "90");
    assertThatThrownBy(() -> take(ReadingKind.MAGNETO_DROP, null, one("Left magneto", "1001")))
        .hasMessageContaining("must be from 0 to 1000 rpm, not 1001");
    assertThatThrownBy(() -> take(ReadingKind.TORQUE, null, one("Bolt", "90000")))
        .hasMessageContaining("must be from 0 to 5000");
    UUID elsewhere =
        hands.component(owner, trestle.fleet.PartKind.ENGINE, "T", "S" + count, "Engine", BEGAN);
    assertThatThrownBy(
            () ->
                readings.file(
                    first.viewer(),
                    new WorkReadings.Taken(
                        line,
                        elsewhere,
                        ReadingKind.TORQUE,
                        null,
                        null,
                        List.of(one("Bolt", "9")),
                        clock.instant()),
                    null))
        .hasMessageContaining("was not fitted to this aircraft");
    assertThat(readings.ofLine(owner, line)).isEmpty();
  }

  @Test
  void costsAreComparedAndTheApprovedEstimateStands() {
    UUID asked = draft(true);
    labour(asked, true, 90, "85.00");
    cost(asked, true, CostKind.PARTS, "300");
    orders.issue(owner, asked, null);
    assertThatThrownBy(() -> orders.start(owner, asked, null)).hasMessageContaining("approved");
    orders.approve(owner, asked, "Up to 450", null);
    assertThatThrownBy(() -> cost(asked, true, CostKind.OUTSIDE, "10"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("approved the estimate");
    orders.start(owner, asked, null);
    labour(asked, false, 100, "85.00");
    cost(asked, false, CostKind.PARTS, "310.50");
    Costing costing = costs.of(owner, book.order(owner, asked));
    // Our arithmetic: 90 and 100 minutes at 85 an hour.
    assertThat(costing.compared().get(0).estimate()).isEqualTo("127.50");
    assertThat(costing.compared().get(0).actual()).isEqualTo("141.67");
    Costing.Compared all = costing.compared().get(3);
    assertThat(all.estimate()).isEqualTo("427.50");
    assertThat(all.difference()).isEqualTo("24.67");
    UUID estimated = costing.estimates().get(0).id();
    assertThatThrownBy(() -> costs.takeAway(owner, estimated, "Dear", null))
        .hasMessageContaining("it stands");
    assertThatThrownBy(
            () ->
                costs.file(
                    owner,
                    new WorkCosts.NewCost(
                        asked,
                        null,
                        false,
                        CostKind.OUTSIDE,
                        "Paint",
                        null,
                        null,
                        BigDecimal.TEN,
                        "USD"),
                    null))
        .hasMessageContaining("must be EUR");
  }

  @Test
  void labourIsReckonedByTheRateOfItsDay() {
    LocalDate today = owner.dateOf(clock.instant());
    settings.state(owner, "Engines", null, new BigDecimal("80"), "EUR", today.minusDays(40), null);
    settings.state(owner, "engines", null, new BigDecimal("90"), "EUR", today.minusDays(5), null);
    UUID later =
        settings.state(
            owner, "Engines", null, new BigDecimal("99"), "EUR", today.plusDays(5), null);
    assertThat(settings.inForce(owner, today))
        .extracting(one -> one.hourly().toString())
        .containsExactly("90.00");
    assertThat(settings.inForce(owner, today.minusDays(6)).get(0).hourly()).isEqualTo("80.00");
    UUID rate = settings.inForce(owner, today).get(0).id();
    costs.file(owner, byRate(rate, null), null);
    Costing.Sum sum = costs.of(owner, book.order(owner, order)).actuals().get(0);
    // Our arithmetic: 40 minutes at 90 an hour.
    assertThat(sum.amount()).isEqualTo("60.00");
    assertThat(sum.words()).isEqualTo("engines");
    assertThatThrownBy(() -> costs.file(owner, byRate(later, null), null))
        .hasMessageContaining("one of today");
    assertThatThrownBy(() -> costs.file(owner, byRate(rate, BigDecimal.TEN), null))
        .hasMessageContaining("either chosen or typed");
    settings.state(owner, "Engines", null, null, "EUR", today, null);
    assertThat(settings.inForce(owner, today)).isEmpty();
    assertThatThrownBy(
            () -> settings.state(first.viewer(), "X", null, BigDecimal.ONE, "EUR", today, null))
        .isInstanceOf(Refusal.class);
  }

  private WorkCosts.NewCost byRate(UUID rate, BigDecimal typed) {
    return new WorkCosts.NewCost(
        order, null, false, CostKind.LABOUR, "", 40, typed, null, null, rate);
  }

  @Test
  void theOwnerMayBeAskedOfEveryOrder() {
    assertThatThrownBy(() -> settings.approve(first.viewer(), true, null))
        .isInstanceOf(Refusal.class);
    settings.approve(owner, true, null);
    UUID asked = draft(false);
    orders.issue(owner, asked, null);
    assertThatThrownBy(() -> orders.start(owner, asked, null)).hasMessageContaining("approved");
    settings.approve(owner, false, null);
    UUID free = draft(false);
    orders.issue(owner, free, null);
    orders.start(owner, free, null);
    assertThat(book.order(owner, asked).awaitsApproval()).as("asked then").isTrue();
  }

  @Test
  void theEngineersListCrossesTheirOwnOperatorsAndNoOther() {
    Company other = hands.company();
    Company third = hands.company();
    String mail = first.signIn();
    members.takeIn(other.viewer(Role.OWNER), "Una Reed", mail, Set.of(Role.ENGINEER));
    UUID theirs =
        hands.aircraft(other.viewer(Role.OWNER), "QX-OT" + count, BEGAN, "hours=1 landings=1");
    UUID strange =
        hands.aircraft(third.viewer(Role.OWNER), "QX-ST" + count, BEGAN, "hours=1 landings=1");
    report(other, theirs, "Gear light out");
    report(third, strange, "Nobody here sees this");

    List<String> seen = new ArrayList<>();
    for (Viewer there : places.of(first.viewer())) {
      EngineerList.Place place =
          engineers.of(there, there.dateOf(clock.instant()), new EngineerList.Within(25, 30));
      seen.add(place.operator());
      place.untriaged().forEach(one -> seen.add(one.words()));
      place.orders().forEach(one -> seen.add(one.registration() + " " + one.words()));
    }
    assertThat(seen).contains(company.name(), other.name()).doesNotContain(third.name());
    assertThat(seen)
        .anyMatch(one -> one.contains("Gear light out"))
        .noneMatch(one -> one.contains("Nobody here sees this"))
        .anyMatch(one -> one.contains("QX-BE" + count) && one.contains("1 line open"));
    String page = Visitor.signedIn(mail, first.password()).get("/engineer").asString();
    assertThat(page).contains("Gear light out", other.name()).doesNotContain(third.name());
  }

  @Test
  void aPilotSignsOnlyWhatAndWhereOneMay() throws IOException {
    Viewer pilot = company.viewer(Role.PILOT);
    String licence = "P-" + count;
    members.addLicence(
        owner, pilot.personId(), new Members.NewLicence(licence, "Pilot", "", "", null));
    orders.cancel(owner, order, "Not wanted", null);
    assertThatThrownBy(() -> sign(pilot, licence))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Nobody has stated");
    // 14 CFR 43.3(g), read as a quotation: not on aircraft used under part 121, 129 or 135.
    pilots.state(owner, aircraft, true, "Operations manual 1", null);
    assertThatThrownBy(() -> sign(pilot, licence)).hasMessageContaining("flown for hire");
    pilots.state(owner, aircraft, false, "Operations manual 2", null);
    assertThatThrownBy(() -> sign(first.viewer(), licence)).hasMessageContaining("A pilot signs");
    assertThatThrownBy(() -> sign(pilot, "not mine")).hasMessageContaining("one of yours");
    sign(pilot, licence);
    assertThat(pilots.of(owner, aircraft).get(0).by()).contains("Pilot " + licence);
    PilotWorks.Done signed = pilots.of(owner, aircraft).get(0);
    assertThat(signed.hours()).isEqualTo("900");
    PilotWorks.NewPilotWork better = work(signed.task(), "Right tyre", licence);
    assertThatThrownBy(() -> pilots.sign(pilot, proof(pilot), work("Wings", "x", licence), null))
        .hasMessageContaining("of the list");
    pilots.correct(pilot, proof(pilot), signed.id(), better, "Wrong wheel", null);
    assertThat(pilots.of(owner, aircraft))
        .extracting(PilotWorks.Done::words, PilotWorks.Done::reason)
        .containsExactly(org.assertj.core.groups.Tuple.tuple("Right tyre", "Wrong wheel"));
    assertThatThrownBy(
            () -> pilots.correct(pilot, proof(pilot), signed.id(), better, "Again", null))
        .isInstanceOf(Stale.class);
    // 14 CFR 43.9(a)(1) to (4), read as a quotation: the work, its day, who did it and under what.
    assertThat(entry(pilots.of(owner, aircraft).get(0)))
        .contains("Log entry: QX-BE" + count, "Right tyre", "To Manual 32")
        .contains("Date of completion", "900 hours", "Pilot " + licence, "Signature:");
    UUID busy = draft(false);
    orders.issue(owner, busy, null);
    orders.start(owner, busy, null);
    assertThatThrownBy(() -> sign(pilot, licence)).hasMessageContaining("under a work order");
    // 14 CFR 43.3(g): the rules for part 135 let pilots do nothing, whatever is stated of it.
    hands.rulesOf(owner, aircraft, "part-135", BEGAN);
    assertThatThrownBy(() -> sign(pilot, licence)).hasMessageContaining("no work of their own");
  }

  private void sign(Viewer viewer, String licence) {
    pilots.sign(viewer, proof(viewer), work(USUAL, "Left tyre", licence), null);
  }

  private trestle.people.Proof proof(Viewer viewer) {
    return identity.prove(
        viewer,
        viewer.personId().equals(first.viewer().personId()) ? first.password() : Company.PASSWORD);
  }

  private PilotWorks.NewPilotWork work(String task, String words, String licence) {
    return new PilotWorks.NewPilotWork(
        aircraft, task, words, "Manual 32", clock.instant(), licence);
  }

  private static String entry(PilotWorks.Done work) throws IOException {
    byte[] pdf =
        Visitor.signedIn(first.signIn(), first.password())
            .get(work.link() + "/entry.pdf")
            .asByteArray();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
    }
  }

  @Test
  void photosOfALineAreKeptWithoutTheirPlace() {
    Visitor engineer = Visitor.signedIn(first.signIn(), first.password());
    String photos = "/work-lines/" + line + "/photos";
    byte[] taken = Snaps.withExif(Snaps.jpeg(60, 40), 1, "Port Maddern");
    Map<String, String> words = Map.of("photo-words", "Plug, fouled");
    assertThat(engineer.upload(photos, words, List.of(chosen("plug.jpg", taken))).statusCode())
        .isEqualTo(303);
    PhotoSheet kept = book.order(owner, order).lines().get(0).photos().get(0);
    byte[] shown = engineer.get("/photos/" + kept.sha()).asByteArray();
    assertThat(new String(shown, StandardCharsets.ISO_8859_1))
        .doesNotContain("Port Maddern", "Exif");
    assertThat(engineer.get("/work-lines/" + line).asString())
        .contains("/photos/" + kept.sha() + "/thumbnail", "Plug, fouled", "Una Reed");
    io.restassured.response.Response again =
        engineer.upload(photos, words, List.of(chosen("plug.jpg", taken)));
    assertThat(again.statusCode()).isEqualTo(422);
    assertThat(again.asString()).contains("one of these is on the line already", "Plug, fouled");
    byte[] text = "no picture".getBytes(StandardCharsets.UTF_8);
    assertThat(engineer.upload(photos, words, List.of(chosen("a.jpg", text))).asString())
        .contains("Photo “a.jpg” is");
    assertThat(engineer.post(photos, words).asString()).contains("Photos must be chosen");
    assertThat(book.order(owner, order).lines().get(0).photos()).hasSize(1);
  }

  private static Visitor.Chosen chosen(String name, byte[] bytes) {
    return new Visitor.Chosen("photos", name, bytes, "image/jpeg");
  }

  private UUID draft(boolean approval) {
    return orders.draft(
        owner,
        aircraft,
        new WorkOrders.Terms("Plugs", "", "", null, null, approval),
        List.of(NewLine.free("Spark plugs", Area.ENGINE, "Manual 74", false)),
        null);
  }

  private void report(Company where, UUID on, String words) {
    hands.defect(
        where.viewer(Role.PILOT), on, words, Judgement.CAN_FLY, clock.instant().minusSeconds(60));
  }

  private void labour(UUID on, boolean estimate, int minutes, String rate) {
    costs.file(
        owner,
        new WorkCosts.NewCost(
            on,
            null,
            estimate,
            CostKind.LABOUR,
            "Una Reed",
            minutes,
            new BigDecimal(rate),
            null,
            "EUR"),
        null);
  }

  private void cost(UUID on, boolean estimate, CostKind kind, String amount) {
    costs.file(
        owner,
        new WorkCosts.NewCost(
            on, null, estimate, kind, "Plugs", null, null, new BigDecimal(amount), "EUR"),
        null);
  }

  private void refused(String sentence, String reading, String reference) {
    assertThatThrownBy(() -> take(ReadingKind.COMPRESSION, reference, one("Cylinder 1", reading)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining(sentence);
  }

  private void take(ReadingKind kind, String reference, WorkReadings.One... all) {
    readings.file(
        first.viewer(),
        new WorkReadings.Taken(
            line,
            engine,
            kind,
            null,
            reference == null ? null : new BigDecimal(reference),
            List.of(all),
            clock.instant()),
        null);
  }

  private void limit(ReadingKind kind, String least, String most, boolean reference) {
    readings.limit(
        first.viewer(),
        engine,
        new ReadingVerdict.Limit(
            kind,
            least == null ? null : new BigDecimal(least),
            most == null ? null : new BigDecimal(most),
            reference,
            "Example data"),
        null);
  }

  private static WorkReadings.One one(String place, String value) {
    return new WorkReadings.One(place, new BigDecimal(value), "");
  }

  private List<String> verdicts() {
    return readings.ofLine(owner, line).stream().map(one -> one.verdict().words()).toList();
  }

  private List<String> judged() {
    return readings.ofLine(owner, line).stream()
        .map(one -> one.reading().shown() + " " + one.verdict().within())
        .toList();
  }
}
