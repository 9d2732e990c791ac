package trestle.workshop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.Fleet;
import trestle.fleet.PartKind;
import trestle.fleet.Particulars;
import trestle.fleet.Position;
import trestle.fleet.Spot;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Visitor;
import trestle.programme.RequirementKind;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.records.ProofOnPaper;
import trestle.records.Shell;
import trestle.server.TheClock;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.workshop.Hands.Engineer;
import trestle.workshop.paper.Papers;

/**
 * The papers of an order, read back from their PDF: entries against 14 CFR 43.9(a) (read as a
 * quotation) and 43.11(a) (read in a copy of the text), point by point.
 */
@QuarkusTest
class PaperTest {
  private static final LocalDate BEGAN = LocalDate.of(2024, 6, 1);
  private static final String TASKS =
      """
      Engine and nacelle:
      Compression | Example manual 72-10
      Cabin and cockpit:
      Belts | Example manual 25-10
      Flight controls:
      Elevator cables | Example manual 27-30
      """;

  @Inject Hands hands;
  @Inject TheClock clock;
  @Inject Fleet fleet;
  @Inject Fitments fitments;
  @Inject Components components;
  @Inject WorkOrders orders;
  @Inject LineWorks works;
  @Inject PartUses parts;
  @Inject WorkReadings readings;
  @Inject Releases releases;
  @Inject OrderBook book;
  @Inject TaskLists taskLists;
  @Inject Papers papers;

  private static Company company;
  private static Engineer first;
  private static Engineer second;
  private static int count;
  private Viewer owner;
  private Visitor reader;
  private UUID aircraft;
  private UUID annual;

  @BeforeEach
  void found() {
    if (company == null) {
      company = hands.company();
      first = hands.engineer(company, "Una Reed", "airframe, engine", null);
      second = hands.engineer(company, "Olaf Sedge", "airframe, engine", null);
      hands.rules(company.viewer(Role.OWNER), "part-91", BEGAN);
    }
    count++;
    owner = company.viewer(Role.OWNER);
    reader = company.visitor(Role.AUDITOR);
    aircraft = withPropeller("QX-PA" + count);
    annual =
        hands.requirement(
            owner,
            aircraft,
            Terms.of(
                "Annual inspection",
                RequirementKind.INSPECTION,
                Rule.first(Limit.Every.of(Interval.ofMonths(12)).toMonthEnd()),
                BEGAN));
    hands.baseline(owner, annual, aircraft, BEGAN, "hours=900");
  }

  @Test
  void entriesSayWhatTheRulesAskForInEachBook() throws Exception {
    UUID order =
        order(
            NewLine.due(annual, null),
            NewLine.free("Alternator belt", Area.ENGINE, "Example manual 24-30", false));
    String cards = text(order, "work-order.pdf");
    assertThat(cards)
        .contains("Treat every propeller as live", "Data, revision", "Signature", "Second person")
        .contains("Done by", "Found in work", "Page 1 of");
    told(10, () -> parts.used(first.viewer(), belt(order), null));
    sign(order, "Compression", "Belts", "Elevator cables");
    told(
        11,
        () ->
            works.inspect(
                second.viewer(),
                hands.proof(second),
                line(order, "Elevator cables").work().id(),
                "Tension seen",
                second.licence(),
                null));
    work(
        order,
        "Alternator belt",
        row ->
            new NewWork(
                row,
                Outcome.DONE,
                "Belt replaced and tensioned",
                "Example manual 24-30",
                "7",
                at(12),
                "H. Teal",
                null));
    sign(order, "Annual inspection");
    release(order, true, List.of());

    List<String> pages = pages(order, "log-entries.pdf");
    assertThat(pages).hasSize(3);
    String airframe = pages.get(0);
    String engineLog = pages.get(1);
    String propellerLog = pages.get(2);
    assertThat(airframe).contains("Airframe log: QX-PA");
    assertThat(engineLog).contains("Engine log: Engine", "serial E-" + count);
    assertThat(propellerLog).contains("Propeller log: Propeller", "serial P-" + count);

    // 14 CFR 43.9(a)(1): a description of the work, or the data it refers to.
    assertThat(engineLog)
        .contains("Belt replaced and tensioned", "Example manual 24-30, revision 7")
        .contains("B-77", "LOT-9", "Statement 12");
    assertThat(airframe).doesNotContain("Belt replaced and tensioned");
    assertThat(propellerLog).doesNotContain("Belt replaced and tensioned");
    // 43.9(a)(2): the date of completion.
    assertThat(engineLog).contains("Completed 11 March 2025", "Date of completion: 11 March 2025");
    // 43.9(a)(3): who performed the work, where that is not who approves it.
    assertThat(engineLog).contains("Performed by H. Teal; signed by Una Reed");
    // 43.9(a)(4): signature, number and kind of the certificate of who approves it.
    assertThat(engineLog).contains("Una Reed, Licensed engineer " + first.licence(), "Signature:");
    // From memory: the signature approves only the work performed.
    assertThat(engineLog).contains("only for the work performed");

    for (String each : pages) {
      // 43.11(a)(1): the type of inspection and its extent in brief.
      assertThat(each)
          .contains("Type of inspection: Annual inspection", "Extent: ")
          .contains("Engine and nacelle (1 task)", "Flight controls (1 task)");
      // 43.11(a)(2): the date and the aircraft's total time in service.
      assertThat(each).contains("Inspected 11 March 2025 at 900 hours");
      assertThat(each).contains("total time in service");
      // 43.11(a)(3): signature, number and kind of the certificate of who approves it.
      assertThat(each).contains("Una Reed, Licensed engineer " + first.licence(), "Signature:");
      // 43.11(a)(4): the words for an airworthy aircraft.
      assertThat(each)
          .contains("I certify that this aircraft has been inspected in accordance with the annual")
          .contains("inspection and was determined to be in airworthy condition.");
      assertThat(each).contains("Page ", " of 3");
    }
    assertThat(airframe)
        .contains("Inspected independently by Olaf Sedge, Licensed engineer " + second.licence());

    String root = papers.of(owner, order, at(16)).headRoot();
    assertThat(engineLog).contains("Ledger head:", root);
    List<String> labels = pages(order, "log-entries.pdf?size=label");
    assertThat(labels).hasSizeBetween(3, 4);
    assertThat(labels.get(1)).contains("Belt replaced", root, "airworthy condition");

    // Its columns are narrow, and a title may take two lines of its own.
    assertThat(text(order, "release.pdf"))
        .contains("Approval for return to service", "Engine, serial E-", "Annual", "inspection")
        .contains("Signature:", root);
    assertThat(text(order, "parts.pdf")).contains("B-77", "LOT-9", "Statement 12");
    assertThat(text(order, "discrepancies.pdf")).contains("None was found");

    // What is printed is checked by what is no part of this program, from the code and the text.
    for (String what : List.of("release.pdf", "log-entries.pdf", "log-entries.pdf?size=label")) {
      byte[] pdf = reader.get(path(order, what)).asByteArray();
      String printed = ProofOnPaper.text(pdf);
      assertThat(Shell.check(printed).said()).as(what).contains("It holds.");
      String scanned = ProofOnPaper.code(pdf);
      assertThat(scanned).as(what).startsWith("HTTP://").endsWith(printed);
      assertThat(Shell.check(scanned).code()).isZero();
    }
    assertThat(Visitor.atTheDoor().get("/P/" + ProofOnPaper.text(pdf(order))).asString())
        .contains("It holds", "still agrees");
  }

  private byte[] pdf(UUID order) {
    return reader.get(path(order, "release.pdf")).asByteArray();
  }

  @Test
  void anAircraftThatIsNotAirworthyHasItsListSignedAndDated() throws Exception {
    UUID order = order(NewLine.due(annual, null));
    sign(order, "Compression", "Belts", "Elevator cables");
    inspect(order, "Elevator cables");
    sign(order, "Annual inspection");
    release(order, false, List.of("Spar cap corroded", "Left tyre worn to the cord"));

    String airframe = pages(order, "log-entries.pdf").get(0);
    // 14 CFR 43.11(a)(5), and 8 of the table of cases: inspected, and not airworthy.
    assertThat(airframe)
        .contains("Disapproved", "2 discrepancies, on the list dated 11 March 2025")
        .contains("inspected in accordance with the annual inspection and a list of discrepancies")
        .contains("and unairworthy items dated 11 March 2025 has been provided")
        .contains("for the aircraft owner or operator")
        .doesNotContain("determined to be in airworthy condition");
    // 43.11(b): a signed and dated list.
    assertThat(text(order, "discrepancies.pdf"))
        .contains("Dated 11 March 2025", "Spar cap corroded", "Left tyre worn to the cord")
        .contains("Una Reed, Licensed engineer " + first.licence(), "Signature:");
    assertThat(text(order, "release.pdf")).contains("Not airworthy", "Spar cap corroded");
  }

  /** 14 CFR 43.11(a)(6), read in a copy of the text; the end of its words is from memory. */
  @Test
  void aProgressiveInspectionIsEnteredInItsOwnWords() throws Exception {
    UUID order = order(NewLine.due(annual, null));
    sign(order, "Compression", "Belts", "Elevator cables");
    inspect(order, "Elevator cables");
    sign(order, "Annual inspection");
    Releases.Progressive half = new Releases.Progressive("the airframe", "");
    assertThatThrownBy(() -> release(order, true, List.of(), half))
        .hasMessageContaining("names both");
    Releases.Progressive whole = new Releases.Progressive("the airframe", "the engine");
    release(order, true, List.of(), whole);
    assertThat(text(order, "log-entries.pdf"))
        .contains("I certify that in accordance with a progressive inspection program, a routine")
        .contains(
            "inspection of the airframe and a detailed inspection of the engine were performed")
        .contains("and the aircraft is approved for return to service.")
        .doesNotContain("determined to be in airworthy condition");

    UUID other =
        told(
            16,
            () -> {
              UUID made =
                  orders.draft(
                      owner,
                      aircraft,
                      WorkOrders.Terms.of("Wing"),
                      List.of(NewLine.free("Look it over", Area.WING, Hands.DATA, false)),
                      null);
              orders.issue(owner, made, null);
              return made;
            });
    sign(other, "Look it over");
    assertThatThrownBy(() -> release(other, true, List.of(), whole))
        .hasMessageContaining("No inspection is signed");
  }

  /** What was read stands in the entry; of two engines each has its own book. */
  @Test
  void onATwinWorkAndReadingsGoIntoTheBookOfTheirEngine() throws Exception {
    aircraft = twin("QX-TW" + count);
    UUID order =
        order(
            NewLine.free("Plug replaced", Area.ENGINE, "Example manual 74-20", false),
            NewLine.free("Door hinge", Area.FUSELAGE, "Example manual 52-10", false));
    UUID right =
        components.fittings(owner, List.of(aircraft), View.EVERYTHING).get(aircraft).stream()
            .filter(one -> one.positionCode().equals("engine-2"))
            .findFirst()
            .orElseThrow()
            .componentId();
    LineSheet plug = line(order, "Plug").line();
    told(
        10,
        () ->
            readings.file(
                first.viewer(),
                new WorkReadings.Taken(
                    plug.id(),
                    right,
                    ReadingKind.COMPRESSION,
                    null,
                    new BigDecimal("43"),
                    List.of(new WorkReadings.One("Cylinder 3", new BigDecimal("72"), "")),
                    at(10)),
                null));
    assertThatThrownBy(() -> sign(order, "Plug")).hasMessageContaining("Logbook must be chosen");
    work(order, "Plug", row -> in(right, row));
    assertThatThrownBy(() -> work(order, "Door", row -> in(UUID.randomUUID(), row)))
        .hasMessageContaining("must be of this aircraft");
    sign(order, "Door");
    release(order, true, List.of());
    List<String> pages = pages(order, "log-entries.pdf");
    assertThat(pages).hasSize(2);
    assertThat(pages.get(0)).contains("Airframe log", "Door hinge").doesNotContain("Plug replaced");
    // AC 43.13-1B, 8-14, as quoted, and our arithmetic: 72/80 has lost 10 %.
    assertThat(pages.get(1))
        .contains("Engine log: Right engine", "Plug replaced")
        .contains("Differential compression: Cylinder 3 72/80, 10 % lost, reference orifice 43.");
    assertThat(text(order, "work-order.pdf")).contains("Cylinder 3 72/80, 10 % lost");
  }

  @Test
  void anEngineThatLeftHasItsOwnEntryStill() throws Exception {
    UUID order =
        order(
            NewLine.free("Compressions before removal", Area.ENGINE, "Example manual 72", false),
            NewLine.free("Engine change", Area.ENGINE, "Example manual 71", false));
    UUID old = fitted("engine");
    UUID next = hands.component(owner, PartKind.ENGINE, "TARN-360", "N-" + count, "Engine", BEGAN);
    sign(order, "Compressions");
    UUID change = line(order, "Engine change").line().id();
    told(
        11,
        () ->
            parts.off(
                first.viewer(), new PartUses.Off(change, old, at(11), "Overhaul", true), null));
    told(
        12,
        () ->
            parts.on(
                first.viewer(),
                new PartUses.On(change, next, Spot.on(aircraft, "engine"), at(12), "Form 9"),
                null));
    work(order, "Engine change", row -> NewWork.done(row, "Changed", Hands.DATA, at(13)));
    release(order, true, List.of());
    List<String> pages = pages(order, "log-entries.pdf");
    assertThat(pages).hasSize(3);
    assertThat(pages.get(1))
        .contains("serial N-" + count, "Changed")
        .doesNotContain("Compressions");
    assertThat(pages.get(2)).contains("serial E-" + count, "Compressions before removal");
  }

  private UUID fitted(String position) {
    return components.fittings(owner, List.of(aircraft), View.EVERYTHING).get(aircraft).stream()
        .filter(one -> one.positionCode().equals(position))
        .findFirst()
        .orElseThrow()
        .componentId();
  }

  private static NewWork in(UUID book, UUID row) {
    return new NewWork(
        row, Outcome.DONE, "Done as written", Hands.DATA, "", at("2025-03-11"), "", null, book);
  }

  private static Instant at(String day) {
    return Hands.at(company.viewer(Role.OWNER), day, 10);
  }

  private UUID twin(String registration) {
    Instant began = Hands.start(owner, BEGAN);
    UUID made =
        fleet.register(
            owner,
            new Fleet.Registering(
                Particulars.of(registration, "Merrow 5", "S-" + registration),
                List.of(
                    new Position("engine-1", PartKind.ENGINE, "Left engine", true),
                    new Position("engine-2", PartKind.ENGINE, "Right engine", true)),
                began,
                Map.of(Counter.HOURS, 900L * 3_600),
                null));
    for (int i = 1; i <= 2; i++) {
      UUID engine =
          hands.component(owner, PartKind.ENGINE, "T-5", registration + "-" + i, "Engine", BEGAN);
      fitments.fit(owner, new Fitments.Fit(engine, made, "engine-" + i, began, null));
    }
    return made;
  }

  /** Nothing is certified of an order that is open. */
  @Test
  void anOpenOrderHasNoCertificate() throws Exception {
    UUID order = order(NewLine.free("Wash", Area.FUSELAGE, "", false));
    for (String what : List.of("release.pdf", "log-entries.pdf", "discrepancies.pdf")) {
      assertThat(reader.get(path(order, what)).statusCode()).as(what).isEqualTo(404);
    }
    assertThat(text(order, "parts.pdf")).contains("No part is recorded");
  }

  /** How long that takes WorkOrderBenchmark measures. */
  @Test
  void aHundredLinesPrintEachWithItsCard() throws Exception {
    NewLine[] lines = new NewLine[100];
    for (int i = 0; i < lines.length; i++) {
      lines[i] = NewLine.free("Look at item " + i, Area.WING, "Example manual 57-" + i, i % 9 == 0);
    }
    String printed = text(order(lines), "work-order.pdf");
    for (int i = 0; i < lines.length; i++) {
      assertThat(printed).contains(i + 1 + ". Look at item " + i + " Data: Example manual 57-" + i);
    }
  }

  private PartUses.Used belt(UUID order) {
    return new PartUses.Used(
        line(order, "Alternator belt").line().id(),
        "used",
        PartKept.STANDARD_PART,
        "Belt",
        "B-77",
        "",
        "LOT-9",
        BigDecimal.ONE,
        "",
        "Statement 12");
  }

  private UUID withPropeller(String registration) {
    UUID made =
        fleet.register(
            owner,
            new Fleet.Registering(
                Particulars.of(registration, "Skerry 200", "S-" + registration),
                List.of(
                    new Position("engine", PartKind.ENGINE, "Engine", true),
                    new Position("propeller", PartKind.PROPELLER, "Propeller", true)),
                Hands.start(owner, BEGAN),
                Map.of(Counter.HOURS, 900L * 3_600),
                null));
    UUID engine =
        hands.component(owner, PartKind.ENGINE, "TARN-360", "E-" + count, "Engine", BEGAN);
    UUID propeller =
        hands.component(owner, PartKind.PROPELLER, "FAN-2", "P-" + count, "Propeller", BEGAN);
    Instant began = Hands.start(owner, BEGAN);
    fitments.fit(owner, new Fitments.Fit(engine, made, "engine", began, null));
    fitments.fit(owner, new Fitments.Fit(propeller, made, "propeller", began, null));
    return made;
  }

  private UUID order(NewLine... lines) throws Exception {
    taskLists.revise(owner, annual, null, TaskText.parse(TASKS), "The authority", "", null);
    return told(
        9,
        () -> {
          UUID order =
              orders.draft(owner, aircraft, WorkOrders.Terms.of("Annual"), List.of(lines), null);
          orders.issue(owner, order, null);
          return order;
        });
  }

  private void sign(UUID order, String... titles) throws Exception {
    for (String title : titles) {
      work(order, title, row -> NewWork.done(row, "Done as written", Hands.DATA, at(10)));
    }
  }

  private void work(UUID order, String title, java.util.function.Function<UUID, NewWork> work)
      throws Exception {
    NewWork asked = work.apply(line(order, title).line().rowId());
    told(
        13,
        () ->
            works.sign(first.viewer(), hands.proof(first), first.licence(), List.of(asked), null));
  }

  private void inspect(UUID order, String title) throws Exception {
    told(
        11,
        () ->
            works.inspect(
                second.viewer(),
                hands.proof(second),
                line(order, title).work().id(),
                "Seen",
                second.licence(),
                null));
  }

  private void release(UUID order, boolean airworthy, List<String> found) throws Exception {
    release(order, airworthy, found, Releases.Progressive.NONE);
  }

  private void release(
      UUID order, boolean airworthy, List<String> found, Releases.Progressive progressive)
      throws Exception {
    told(
        15,
        () ->
            releases.release(
                first.viewer(),
                hands.proof(first),
                new Releases.NewRelease(
                    order,
                    airworthy,
                    found,
                    "",
                    "",
                    first.licence(),
                    progressive,
                    Releases.seen(book.order(owner, order)),
                    null),
                null));
  }

  private OrderLine line(UUID order, String title) {
    return book.order(owner, order).lines().stream()
        .filter(one -> one.line().title().contains(title))
        .findFirst()
        .orElseThrow();
  }

  private static String path(UUID order, String what) {
    return "/work-orders/" + order + "/paper/" + what;
  }

  private String text(UUID order, String what) throws IOException {
    return String.join(" ", pages(order, what));
  }

  /** The text of each page on one line; fonts embedded, black and white. */
  private List<String> pages(UUID order, String what) throws IOException {
    byte[] pdf = reader.get(path(order, what)).asByteArray();
    keep(what, pdf);
    List<String> pages = new ArrayList<>();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      for (int i = 1; i <= document.getNumberOfPages(); i++) {
        PDFTextStripper stripper = new PDFTextStripper();
        stripper.setSortByPosition(true);
        stripper.setStartPage(i);
        stripper.setEndPage(i);
        pages.add(stripper.getText(document).replaceAll("\\s+", " "));
      }
      for (PDPage each : document.getPages()) {
        for (COSName font : each.getResources().getFontNames()) {
          assertThat(each.getResources().getFont(font).isEmbedded()).isTrue();
        }
      }
    }
    return pages;
  }

  /** Where asked for, to be looked at: TRESTLE_PAPERS=folder. */
  private static void keep(String what, byte[] pdf) throws IOException {
    String folder = System.getenv("TRESTLE_PAPERS");
    if (folder != null) {
      Files.write(Path.of(folder).resolve(count + "-" + what.replace("?", "-") + ".pdf"), pdf);
    }
  }

  private Instant at(int hour) {
    return Hands.at(owner, "2025-03-11", hour);
  }

  private <T> T told(int hour, Callable<T> work) throws Exception {
    return clock.telling(at(hour).plusSeconds(60), work);
  }
}
