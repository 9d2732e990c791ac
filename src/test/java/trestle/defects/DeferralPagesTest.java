package trestle.defects;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.Particulars;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.profiles.Examples;
import trestle.profiles.NewProfile;
import trestle.profiles.RuleProfiles;
import trestle.reckoning.Counter;
import trestle.web.Role;
import trestle.web.Shown;

/** Triage, deferral and extension by their pages, and what other pages then say. */
@QuarkusTest
class DeferralPagesTest {
  private static int companies;

  @Inject Defects defects;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private Visitor engineer;
  private Visitor pilot;
  private UUID aircraft;
  private UUID defect;
  private LocalDate utcToday;

  @BeforeEach
  void found() {
    company = Company.founded("deferral-pages-" + companies++, operators, members);
    members.addLicence(
        company.viewer(Role.OWNER),
        company.people().get(Role.ENGINEER),
        new Members.NewLicence("E-1", "Licensed engineer", "", "", null));
    engineer = company.visitor(Role.ENGINEER);
    pilot = company.visitor(Role.PILOT);
    aircraft =
        fleet.register(
            company.viewer(Role.OWNER),
            new Fleet.Registering(
                Particulars.of("QX-SOR", "Skerry 200", "S-1"),
                List.of(),
                Instant.parse("2025-01-01T00:00:00Z"),
                Map.of(Counter.HOURS, Hangar.hours(6_000), Counter.LANDINGS, 2_000L),
                null));
    Instant found = Instant.now().minusSeconds(60);
    utcToday = found.atZone(ZoneOffset.UTC).toLocalDate();
    defect =
        defects
            .report(
                company.viewer(Role.PILOT),
                aircraft,
                new DefectDraft(
                    "Alternator 2 does not charge",
                    "24",
                    "Left panel",
                    null,
                    null,
                    Judgement.CAN_FLY,
                    null,
                    false,
                    "",
                    found),
                List.of(),
                null,
                null)
            .entryId();
  }

  @Test
  void anEngineerDefersByAnItemAndEveryPageSaysSo() {
    assertThat(engineer.get("/defects/" + defect).asString()).contains("Defer", "Triage");
    Response filed = defer(engineer, Map.of());
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(303);
    String page = engineer.get(path(filed)).asString();
    String lastDay = Shown.date(utcToday.plusDays(10));
    assertThat(page)
        .contains("Deferral of defect No. 1", "23:59 UTC (", lastDay, "Day VFR only")
        .contains("24-31-01", "M-24-1", "“Inoperative”, at Alternator switch", "E-1")
        .contains("Show that day", "Correct it");
    assertThat(engineer.get(path(filed) + "?as-at=2025-01-02").statusCode()).isEqualTo(404);
    Response before = engineer.get(path(filed) + "?known=1");
    assertThat(before.statusCode()).isEqualTo(404);
    assertThat(engineer.get(path(filed) + "?known=9999").asString())
        .contains("as it was known at record 9,999", "24-31-01")
        .doesNotContain("Correct it");
    assertThat(engineer.get(path(filed) + "?as-at=the+30th").statusCode()).isEqualTo(400);
    assertThat(pilot.get("/aircraft/" + aircraft).asString())
        .contains("Limited", "Defect No. 1 is deferred, not IFR: Day VFR only")
        .contains("Deferred defect No. 1");
    assertThat(pilot.get("/due-list").asString()).contains("Deferred defect No. 1");
    assertThat(pilot.get("/defects/" + defect).asString())
        .contains("Deferred by item 24-31-01, category C", "The deferral, with all its conditions")
        .doesNotContain("run out");
  }

  @Test
  void whatIsMissingIsToldAtItsFieldAndNothingIsStored() {
    Response refused = defer(engineer, Map.of("item", "", "limitation", ""));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString()).contains("Item must not be blank", "value=\"M-24-1\"");
    Response noLimitation = defer(engineer, Map.of("limitation", ""));
    assertThat(noLimitation.statusCode()).isEqualTo(422);
    assertThat(noLimitation.asString())
        .contains("id=\"limitation-error\"", "Limitation is needed: say what must not be flown");
    Response wrongPassword = defer(engineer, Map.of("password", "not this one"));
    assertThat(wrongPassword.statusCode()).isEqualTo(422);
    assertThat(wrongPassword.asString()).contains("id=\"password-error\"");
    assertThat(pilot.get("/aircraft/" + aircraft).asString()).contains("Held");
  }

  @Test
  void aPilotIsToldThatAnEngineerDefersUnderThePlainProfile() {
    assertThat(pilot.get("/defects/" + defect + "/deferral").asString())
        .contains("You may not defer by an item of a list under this operator’s rule profile");
    Response refused = defer(pilot, Map.of("by", "pilot", "licence", ""));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString()).contains("id=\"by-error\"", "an engineer defers");
    assertThat(
            company.visitor(Role.CONTROLLER).get("/defects/" + defect + "/deferral").statusCode())
        .isEqualTo(403);
  }

  @Test
  void whoComesSecondIsToldAndSeesWhatTheyTyped() {
    defer(engineer, Map.of());
    Response second = defer(engineer, Map.of("item", "24-99"));
    assertThat(second.statusCode()).isEqualTo(409);
    assertThat(second.asString())
        .contains("Defect No. 1 was deferred already, by engineer. Nothing was filed.")
        .contains("value=\"24-99\"");
  }

  @Test
  void anExtensionIsFiledWhereTheProfileAllowsIt() {
    String deferral = path(defer(engineer, Map.of("category", "D")));
    Response refused = extend(deferral, utcToday.plusDays(130));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString())
        .contains(
            "id=\"new-last-day-error\"", "Category D is not extended under this rule profile");

    profile("part-m");
    Response filed = extend(deferral, utcToday.plusDays(130));
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(303);
    assertThat(engineer.get(deferral).asString())
        .contains("Extended on", "RIE-1", "A. Quality", "ALT-1", "Authority told")
        .contains(Shown.date(utcToday.plusDays(130)));
    assertThat(extend(deferral, utcToday.plusDays(131)).asString())
        .contains("It was extended once already");
  }

  @Test
  void aDeferralIsCorrectedByItsPage() {
    String deferral = path(defer(engineer, Map.of()));
    Response corrected =
        engineer.fillIn(
            deferral + "/correction",
            "/correction",
            Map.of(
                "category",
                "B",
                "reason",
                "The list has it as B",
                "licence",
                "E-1",
                "by",
                "engineer",
                "password",
                Company.PASSWORD));
    assertThat(corrected.statusCode()).as(corrected.asString()).isEqualTo(303);
    assertThat(engineer.get(path(corrected)).asString())
        .contains("Corrected: The list has it as B", Shown.date(utcToday.plusDays(3)))
        .contains("Day VFR only");
  }

  @Test
  void anEngineerTriagesByThePage() {
    Response filed =
        engineer.fillIn(
            "/defects/" + defect + "/triage",
            "/triage",
            Map.of(
                "outcome",
                "flies",
                "remark",
                "A stain, not a leak",
                "licence",
                "E-1",
                "password",
                Company.PASSWORD));
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(303);
    assertThat(engineer.get("/defects/" + defect).asString())
        .contains("Triaged: does not hinder flight. A stain, not a leak.");
    assertThat(pilot.get("/aircraft/" + aircraft).asString()).doesNotContain("Defect No. 1");
  }

  private Response defer(Visitor visitor, Map<String, ?> more) {
    Map<String, Object> fields = new LinkedHashMap<>();
    fields.put("list-reference", "Minimum equipment list, revision 4");
    fields.put("item", "24-31-01");
    fields.put("category", "C");
    fields.put("limitation", "Day VFR only, one alternator");
    fields.put("forbids", "IFR");
    fields.put("placard", "Inoperative");
    fields.put("placard-place", "Alternator switch");
    fields.put("m-procedure", "M-24-1");
    fields.put("by", "engineer");
    fields.put("licence", "E-1");
    fields.put("password", Company.PASSWORD);
    fields.putAll(more);
    return visitor.fillIn("/defects/" + defect + "/deferral", "/deferral", fields);
  }

  private Response extend(String deferral, LocalDate newLastDay) {
    return engineer.fillIn(
        deferral + "/extension",
        "/extension",
        Map.of(
            "new-last-day",
            Shown.date(newLastDay),
            "why",
            "No part to be had",
            "unserviceable-at",
            "Port Maddern",
            "part-number",
            "ALT-1",
            "approved-by",
            "A. Quality",
            "reference",
            "RIE-1"));
  }

  private void profile(String key) {
    profiles.revise(
        company.viewer(Role.OWNER),
        new NewProfile(
            null,
            null,
            key,
            Examples.of(key).profile(),
            LocalDate.parse("2025-01-01"),
            "For the test",
            "A. Authority",
            null));
  }

  private static String path(Response answer) {
    return answer.header("Location").replaceAll("^https?://[^/]+", "");
  }
}
