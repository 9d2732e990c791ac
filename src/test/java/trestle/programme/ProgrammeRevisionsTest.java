package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Visitor;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.standing.DueItem;
import trestle.standing.Subject;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** A programme in revisions, and what an aircraft carries of it before and after taking one up. */
@QuarkusTest
class ProgrammeRevisionsTest {
  @Inject Upkeep upkeep;
  @Inject Programmes programmes;
  @Inject ProgrammeRevisions revisions;
  @Inject Requirements requirements;
  @Inject RequirementRecords requirementRecords;
  @Inject DueItems dueItems;
  @Inject InstantSource clock;

  private static Company company;
  private static int marks;

  private Viewer owner;
  private Viewer engineer;
  private LocalDate today;
  private LocalDate began;
  private UUID programme;
  private UUID aircraft;
  private UUID other;

  @BeforeEach
  void found() {
    if (company == null) {
      company = upkeep.company();
    }
    owner = company.viewer(Role.OWNER);
    engineer = company.viewer(Role.ENGINEER);
    today = owner.dateOf(clock.instant());
    began = today.minusDays(90);
    String mark = "V" + marks++;
    programme =
        programmes.create(
            owner, new Programmes.NewProgramme(mark, "Skerry 200", "Manual", began, null));
    aircraft = upkeep.aircraft(owner, "QX-" + mark + "A", began, "hours=1000");
    other = upkeep.aircraft(owner, "QX-" + mark + "B", began, "hours=1000");
  }

  /** 14 CFR 91.409(h): time accumulated under the previous programme counts under the new one. */
  @Test
  void aRevisionBindsWhoeverTakesItUpAndTimeCountsOn() {
    UUID inspection = required("Inspection", "100");
    UUID greasing = required("Greasing", "50");
    adopt(aircraft, began);
    adopt(other, began);
    upkeep.done(engineer, inspection, aircraft, today.minusDays(60));
    upkeep.flyTo(company.viewer(Role.PILOT), aircraft, "1020", today.minusDays(40));

    UUID second = issue("2", today.minusDays(30));
    revise(inspection, "80");
    withdraw(greasing);
    UUID added = required("Heater test", "200");
    assertThat(rules(aircraft)).containsOnly(Map.entry("Inspection", "100"), grease());
    assertThat(left(aircraft, inspection)).isEqualTo("80");

    programmes.adopt(owner, aircraft, programme, second, today.minusDays(20), "Taken up", null);
    assertThat(rules(aircraft))
        .containsOnly(Map.entry("Inspection", "80"), Map.entry("Heater test", "200"));
    assertThat(left(aircraft, inspection)).as("20 h of 80 h are gone").isEqualTo("60");
    assertThat(rules(aircraft, today.minusDays(21)))
        .as("as at the day before it was taken up")
        .containsOnly(Map.entry("Inspection", "100"), grease());
    assertThat(rules(other)).containsOnly(Map.entry("Inspection", "100"), grease());

    issue("3", today.minusDays(10));
    revise(added, "150");
    assertThat(rules(aircraft))
        .containsOnly(Map.entry("Inspection", "80"), Map.entry("Heater test", "200"));
    adopt(other, today);
    assertThat(rules(other))
        .containsOnly(Map.entry("Inspection", "80"), Map.entry("Heater test", "150"));
    Programmes.Following following = programmes.following(owner, other, View.asAt(today));
    assertThat(following.now().words()).endsWith(", revision 3");
  }

  @Test
  void whatALargerInspectionCoversIsThatOfTheRevisionFollowedThen() {
    UUID small = required("Small", "50");
    UUID large =
        requirements.create(
            owner,
            NewRequirement.ofProgramme(
                programme,
                Subject.AIRCRAFT,
                terms("Large", "100").covering(small),
                began,
                "The authority"));
    adopt(aircraft, began);
    issue("2", today.minusDays(50));
    revise(large, "100");
    upkeep.flyTo(company.viewer(Role.PILOT), aircraft, "1010", today.minusDays(30));
    upkeep.done(engineer, large, aircraft, today.minusDays(29));
    assertThat(left(aircraft, small)).as("it still covers the small one there").isEqualTo("50");
    adopt(aircraft, today);
    assertThat(left(aircraft, small)).as("what was done stays done").isEqualTo("50");
  }

  @Test
  void whatIsRefusedSaysWhy() {
    UUID second = issue("2", today.minusDays(5));
    assertThatThrownBy(() -> issue(" 2 ", today))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Number was issued already");
    assertThatThrownBy(() -> issue("3", today.minusDays(6)))
        .hasMessageContaining("Date must not be before that of revision 2");
    assertThatThrownBy(
            () ->
                programmes.adopt(
                    owner, aircraft, programme, second, today.minusDays(6), null, null))
        .hasMessageContaining("From must not be before the day from which revision 2 is in force");
    assertThatThrownBy(
            () ->
                programmes.adopt(owner, aircraft, programme, UUID.randomUUID(), today, null, null))
        .hasMessageContaining("no such revision");
  }

  /** By the pages: issued, told to be behind with what would change, taken up. */
  @Test
  void thePagesTellWhatIsNotTakenUp() {
    UUID inspection = required("Inspection", "100");
    adopt(aircraft, began);
    Visitor visitor = company.visitor(Role.CONTROLLER);
    Response issued =
        visitor.fillIn(
            "/programmes/" + programme + "/revisions/new",
            "/revisions",
            Map.of(
                "number", "12",
                "on", today.minusDays(3).toString(),
                "approved-by", "The authority",
                "reason", "Maker’s manual, revision 12"));
    assertThat(Visitor.leadsTo(issued)).isEqualTo("/programmes/" + programme);
    revise(inspection, "80");
    assertThat(visitor.get("/programmes/" + programme).asString())
        .contains("Maker’s manual, revision 12")
        .contains("as before revision 12, <b>not the newest</b>");
    String page = "/aircraft/" + aircraft + "/programme";
    assertThat(visitor.get(page).asString())
        .contains("Revision 12 is not taken up")
        .contains("100 h, mandatory")
        .contains("80 h, mandatory");
    String value = programme + "/" + revisions.of(owner, programme, View.asAt(today)).get(0).id();
    Response taken =
        visitor.fillIn(
            page,
            "/adoptions",
            Map.of("programme", value, "on", today.toString(), "reason", "Manual read"));
    assertThat(Visitor.leadsTo(taken)).isEqualTo(page + "/carry-over");
    assertThat(visitor.get(page).asString())
        .contains(", revision 12</a> since")
        .doesNotContain("is not taken up");
  }

  private static Map.Entry<String, String> grease() {
    return Map.entry("Greasing", "50");
  }

  private UUID required(String title, String hours) {
    return requirements.create(
        owner,
        NewRequirement.ofProgramme(
            programme, Subject.AIRCRAFT, terms(title, hours), began, "The authority"));
  }

  private Terms terms(String title, String hours) {
    return Terms.of(
        title, RequirementKind.INSPECTION, Rule.first(Limit.Every.of(Counter.HOURS, hours)), began);
  }

  private void revise(UUID requirement, String hours) {
    Revision latest = requirementRecords.history(owner, requirement).latest();
    requirements.revise(
        owner,
        new NewRevision(
            requirement,
            latest.id(),
            terms(latest.terms().title(), hours),
            began,
            "Manual",
            "The authority",
            null));
  }

  private void withdraw(UUID requirement) {
    Revision latest = requirementRecords.history(owner, requirement).latest();
    requirements.withdraw(owner, requirement, latest.id(), began, "Manual", "The authority");
  }

  private UUID issue(String number, LocalDate on) {
    return revisions.issue(
        owner,
        new ProgrammeRevisions.NewIssue(
            programme, number, on, "The authority", "Letter 4", "Manual", null));
  }

  private void adopt(UUID which, LocalDate on) {
    programmes.adopt(owner, which, programme, on, null, null);
  }

  private Map<String, String> rules(UUID which) {
    return rules(which, today);
  }

  private Map<String, String> rules(UUID which, LocalDate day) {
    return dueItems.dueItems(owner, List.of(which), View.asAt(day)).get(which).stream()
        .collect(
            java.util.stream.Collectors.toMap(
                DueItem::title, item -> item.ruleWords().replaceAll("\\D*(\\d+) h.*", "$1")));
  }

  private String left(UUID which, UUID requirement) {
    return upkeep.limit(owner, requirement, which, today).left().toString();
  }
}
