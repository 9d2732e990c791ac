package trestle.directives;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.PartKind;
import trestle.fleet.Particulars;
import trestle.fleet.Position;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.reckoning.Counter;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Whom directives name over all that is on file: what the database is asked loses nobody. */
@QuarkusTest
class SurveysTest {
  private static final Rule YEARLY = Rule.first(Limit.Every.of(Interval.parse("P12M")));
  private static final List<String> SERIALS =
      List.of(
          "1001",
          "1042",
          "1130",
          "1475",
          "1476",
          "01100",
          "K200",
          "k 201",
          "K-350",
          "K351",
          "M250",
          "S/N 1100",
          "sn 1101",
          "1130A",
          "1100-1",
          "18-1234",
          "181234",
          "unknown 1100",
          "11?0",
          "#1100",
          "1100_2",
          "Ø1100",
          "ABC",
          "?",
          "99999999999999999999",
          "0000000000000000001200",
          "10-42",
          "1,100",
          "illegible 7",
          "VT-3107",
          "S4-0318",
          "S40318",
          "7",
          "007",
          "0");
  private static final List<String> NAMED =
      List.of(
          "all",
          "all except 1130",
          "1001 through 1475 except 1130",
          "K200 and up",
          "up to K350",
          "prefix K",
          "prefix S4-",
          "“10-42”",
          "“18-1234”",
          "1042",
          "7 and 1200",
          "VT-3100 through VT-3199",
          "99999999999999999998 and up",
          "1 through 99999999999999999999",
          "“ABC”");

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Directives directives;
  @Inject Assessments assessments;
  @Inject Surveys surveys;
  @Inject InstantSource clock;

  private Company company;
  private Viewer owner;
  private Instant began;
  private LocalDate today;

  @Test
  void everyPartIsFoundThatMayBeNamedAndWhatWasJudgedIsTold() {
    company = Company.founded("surveys-" + UUID.randomUUID(), operators, members);
    owner = company.viewer(Role.OWNER);
    began = clock.instant().minus(Duration.ofDays(60));
    today = owner.dateOf(clock.instant());
    Map<String, UUID> magnetos = new TreeMap<>();
    SERIALS.forEach(serial -> magnetos.put(serial, part("MG-4310", serial)));
    part("MG 4310", "1102");
    part("mg4310", "1103");
    part("MG-4311", "1104");

    Map<String, ParagraphSheet> paragraphs = new TreeMap<>();
    for (String named : NAMED) {
      paragraphs.put(named, paragraph(named));
      assertThat(told(paragraphs.get(named)))
          .as(named)
          .isEqualTo(closely(paragraphs.get(named).applicability()));
    }

    ParagraphSheet run = paragraphs.get("1001 through 1475 except 1130");
    aJudgementCountsWhereItStands(run, magnetos.get("1042"), magnetos.get("1001"));
    itsPagesFollowOneAnother(run);
    anotherSerialIsFoundByItsNewOne(run, magnetos.get("M250"));
    pagesShowIt(run, magnetos.get("1001"), magnetos.get("1130"));
  }

  private void aJudgementCountsWhereItStands(ParagraphSheet run, UUID fitted, UUID judged) {
    UUID aircraft =
        fleet.register(
            owner,
            new Fleet.Registering(
                Particulars.of("QX-SUR", "Skerry 200", "S-1"),
                List.of(new Position("left", PartKind.OTHER, "Left magneto", false)),
                began,
                Map.of(Counter.HOURS, 0L),
                null));
    hangar.fit(owner, fitted, aircraft, "left", began);
    int all = survey(run, null, 1).rows();
    assessments.assess(
        owner,
        NewAssessment.asFitted(run, judged, Verdict.DOES_NOT, "Later points", clock.instant())
            .followingThePart());
    Told told = survey(run, null, 1);
    assertThat(told.rows()).isEqualTo(all);
    assertThat(told.counts())
        .isEqualTo(Map.of(Judged.State.TO_BE_ASSESSED, all - 1, Judged.State.DOES_NOT, 1));
    assertThat(survey(run, Judged.State.DOES_NOT, 1).lines())
        .singleElement()
        .satisfies(line -> assertThat(line.judged().why()).isEqualTo("Later points"));
    assertThat(told.lines())
        .filteredOn(line -> fitted.equals(line.item().componentId()))
        .singleElement()
        .satisfies(
            line -> {
              assertThat(line.item().place()).isEqualTo("Left magneto");
              assertThat(line.holds()).isTrue();
              assertThat(line.judged().why()).isEqualTo("never assessed");
            });
    Surveys.Open open = surveys.toBeAssessed(owner, new Surveys.Page(1, 1000), View.asAt(today));
    assertThat(open.byDirective().get(run.directiveId())).isEqualTo(all - 1);
    assertThat(open.lines()).hasSize(open.rows());
  }

  private void itsPagesFollowOneAnother(ParagraphSheet run) {
    List<Status.Line> all = survey(run, null, 1).lines();
    List<Status.Line> inPages = new ArrayList<>();
    for (int page = 1; inPages.size() < all.size(); page++) {
      inPages.addAll(
          surveys
              .ofParagraph(owner, run, null, new Surveys.Page(page, 7), View.asAt(today))
              .lines());
    }
    assertThat(inPages).isEqualTo(all);
    assertThat(
            surveys
                .ofParagraph(owner, run, null, new Surveys.Page(99, 7), View.asAt(today))
                .lines())
        .as("a page past the end is the last")
        .endsWith(all.get(all.size() - 1));
  }

  /** In past views by what was stated then. */
  private void anotherSerialIsFoundByItsNewOne(ParagraphSheet run, UUID part) {
    assertThat(told(run)).doesNotContain("MG-4310 M250");
    components.revise(
        owner,
        new Components.Revising(
            part, "MG-4310", "1250", "Magneto", "Tarn Works", "", today, "Read again", null, null));
    assertThat(told(run)).contains("MG-4310 1250");
    assertThatThrownBy(
            () ->
                components.revise(
                    owner,
                    new Components.Revising(
                        part,
                        "MG-4310",
                        "M250",
                        "Magneto",
                        "Tarn Works",
                        "Someone",
                        today,
                        "Sold",
                        "as it was",
                        null)))
        .isInstanceOf(Stale.class)
        .hasMessageContaining("serial 1250");
    assertThat(
            surveys
                .ofParagraph(
                    owner, run, null, new Surveys.Page(1, 1000), View.asAt(today.minusDays(1)))
                .lines())
        .noneMatch(line -> line.item().componentId().equals(part));
  }

  private void pagesShowIt(ParagraphSheet run, UUID judged, UUID leftOut) {
    Visitor visitor = company.visitor(Role.AUDITOR);
    assertThat(visitor.get("/paragraphs/" + run.id() + "?state=does-not").asString())
        .contains("Does not apply 1</b>", "Later points")
        .doesNotContain("never assessed");
    assertThat(visitor.get("/components/" + judged + "/directives").asString())
        .contains("not fitted", "Later points");
    assertThat(visitor.get("/components/" + leftOut + "/directives").asString())
        .contains("Not named", "all serials except 1130");
    assertThat(visitor.get("/components?sought=1250").asString())
        .contains("1250", "Magneto")
        .doesNotContain("1042");
  }

  private Told survey(ParagraphSheet paragraph, Judged.State only, int page) {
    return surveys.ofParagraph(
        owner, paragraph, only, new Surveys.Page(page, 1000), View.asAt(today));
  }

  private TreeSet<String> told(ParagraphSheet paragraph) {
    TreeSet<String> told = new TreeSet<>();
    survey(paragraph, null, 1)
        .lines()
        .forEach(line -> told.add(line.item().name() + " " + line.item().serial()));
    return told;
  }

  /** Each component looked at by itself. */
  private TreeSet<String> closely(Applicability whom) {
    TreeSet<String> named = new TreeSet<>();
    for (ComponentSheet sheet : components.sheets(owner, View.asAt(today))) {
      if (whom.covers(sheet.partNumber(), sheet.serial()) != Covered.NO) {
        named.add(sheet.partNumber() + " " + sheet.serial());
      }
    }
    return named;
  }

  private ParagraphSheet paragraph(String serials) {
    UUID directive =
        directives.enter(
            owner,
            NewDirective.of("The authority", "X-" + serials, today.minusDays(20), "Points"),
            null);
    directives.addParagraph(
        owner,
        directive,
        NewParagraph.of("(a)", "Points", Applicability.ofParts(serials, "MG-4310"), YEARLY),
        null);
    return directives.paragraphs(owner, directive).get(0);
  }

  private UUID part(String number, String serial) {
    return hangar.magneto(owner, number, serial, began);
  }
}
