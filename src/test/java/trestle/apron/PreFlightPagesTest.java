package trestle.apron;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.SerializationFeature;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.defects.DefectBook;
import trestle.defects.Repeats;
import trestle.fleet.Groundings;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Visitor;
import trestle.people.Visitor.Filled;
import trestle.programme.RequirementKind;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.server.TestDatabase;
import trestle.signing.SignatureLine;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;

/** A pilot before a flight: what is shown, what is signed, and what is refused. */
@QuarkusTest
class PreFlightPagesTest {
  private static final Map<String, String> BOTH =
      Map.of("inspected", "yes", "accepts", "yes", "fuel", "120.5", "password", Company.PASSWORD);

  @Inject Ramp ramp;
  @Inject Groundings groundings;
  @Inject Acceptances acceptances;
  @Inject PreFlights preFlights;
  @Inject Signatures signatures;
  @Inject IdentityProof identity;
  @Inject Members members;
  @Inject Repeats repeats;
  @Inject InstantSource clock;

  private Ramp.Base base;
  private Visitor pilot;
  private UUID aircraft;
  private String page;

  @BeforeEach
  void aBase() {
    base = ramp.base();
    pilot = base.company().visitor(Role.PILOT);
    aircraft = ramp.aircraft(base, "QX-ABC", "hours=6050 landings=2000", "6000");
    page = "/aircraft/" + aircraft + "/pre-flight";
  }

  @Test
  void theRecordsAreShownOnOnePage() {
    ramp.flown(base, aircraft, "1.5", Duration.ofHours(20));
    String shown = pilot.get(page).asString();
    assertThat(shown)
        .contains("Before you take <span class=\"serial\">QX-ABC</span>")
        .contains("Nothing recorded prevents flight.")
        .contains("Until the next by hours")
        .contains("48.5 h<span>100 h inspection</span>")
        .contains("Hours to the landing of")
        .contains("No inspection is recorded as done.")
        .contains("No release is recorded.")
        .contains("I have made the pre-flight inspection")
        .doesNotContain("no flight is recorded. Before the first one");
    assertThat(base.company().visitor(Role.ENGINEER).get(page).asString())
        .contains("Nothing recorded prevents flight.")
        .doesNotContain("/acceptance");
  }

  @Test
  void bothStatementsAreSignedInOnePress() throws Exception {
    Response signed = pilot.fillIn(page, "/acceptance", BOTH);
    assertThat(signed.statusCode()).as(signed.asString()).isEqualTo(303);
    assertThat(pilot.get(page + "?signed=1").asString())
        .contains("Signed and filed.")
        .contains("Pre-flight inspection signed by pilot, pilot, commercial pilot licence P-114,")
        .contains(
            "Accepted by pilot, pilot, commercial pilot licence P-114 with 120.5 litres of fuel,");
    assertThat(rows()).isEqualTo("1 inspections, 1 acceptances, 2 signatures");

    SignatureLine signature = acceptances.latest(base.pilot(), aircraft).acceptance();
    String seen = pilot.get(signature.link()).asString();
    assertThat(seen)
        .contains(signature.sha256())
        .contains("The text below has this hash.")
        .contains("accept this aircraft");
    recomputed(signature);
  }

  /** The hash of the text, the text from its own tree, and the tree from what was shown. */
  private static void recomputed(SignatureLine signature) throws Exception {
    byte[] hash =
        MessageDigest.getInstance("SHA-256")
            .digest(signature.signed().getBytes(StandardCharsets.UTF_8));
    assertThat(HexFormat.of().formatHex(hash)).isEqualTo(signature.sha256());

    ObjectMapper sorted =
        new ObjectMapper().configure(SerializationFeature.ORDER_MAP_ENTRIES_BY_KEYS, true);
    Object tree = sorted.readValue(signature.signed(), TreeMap.class);
    assertThat(sorted.writeValueAsString(tree)).isEqualTo(signature.signed());

    JsonNode json = sorted.readTree(signature.signed());
    assertThat(json.get("kind").asText()).isEqualTo("acceptance");
    assertThat(json.get("record").asText()).isEqualTo(signature.signsRecord().toString());
    assertThat(json.get("statement").asText()).isEqualTo(signature.statement());
    assertThat(json.at("/content/fuel-on-board").asText()).isEqualTo("120.5");
    assertThat(json.at("/content/shown/registration").asText()).isEqualTo("QX-ABC");
    assertThat(json.at("/content/shown/standing").asText()).isEqualTo("clear");
    assertThat(
            asked(
                "select count(*) from ledger_entry where record_id = '"
                    + signature.id()
                    + "' and json like '%"
                    + signature.sha256()
                    + "%'"))
        .isEqualTo("1");
  }

  @Test
  void aDeferralIsShownWithItsLimitationAndPlacard() throws SQLException {
    ramp.deferred(base, aircraft, "Right landing light is dead");
    assertThat(pilot.get(page).asString())
        .contains("Limitations today")
        .contains("Right landing light is dead")
        .contains("<b>Day flights only</b>")
        .contains("Placard: Inoperative")
        .contains("until 23:59");
    assertThat(pilot.get("/aircraft/" + aircraft + "/sheet").asString())
        .contains("Right landing light is dead")
        .contains("Placard: Inoperative");
    assertThat(pilot.fillIn(page, "/acceptance", BOTH).statusCode()).isEqualTo(303);
    assertThat(asked("select standing from acceptance where aircraft_id = '" + aircraft + "'"))
        .isEqualTo("limited");
  }

  @Test
  void aWrongPasswordSignsNothingAndIsCounted() throws SQLException {
    for (int i = 1; i <= 5; i++) {
      Response refused = pilot.fillIn(page, "/acceptance", with("password", "not this one " + i));
      assertThat(refused.statusCode()).isEqualTo(422);
      assertThat(refused.asString())
          .contains("Password is not right, so nothing was signed.")
          .contains("value=\"120.5\"")
          .contains("<title>Error:")
          .doesNotContain("not this one");
      assertThat(failures()).isEqualTo("" + i);
    }
    Response braked = pilot.fillIn(page, "/acceptance", BOTH);
    assertThat(braked.statusCode()).isEqualTo(422);
    assertThat(braked.asString()).contains("Too many tries. Wait a minute");
    assertThat(rows()).isEqualTo("0 inspections, 0 acceptances, 0 signatures");
  }

  @Test
  void theRightPasswordForgetsTheWrongOnes() throws SQLException {
    pilot.fillIn(page, "/acceptance", with("password", "not this one"));
    assertThat(pilot.fillIn(page, "/acceptance", BOTH).statusCode()).isEqualTo(303);
    assertThat(failures()).isNull();
  }

  @Test
  void aHeldAircraftIsTakenByNobody() throws SQLException {
    Filled opened = pilot.filled(page, "/acceptance", BOTH);
    groundings.ground(base.owner(), aircraft, "Bird strike", null);

    Response refused = pilot.send(opened);
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString())
        .contains("QX-ABC is held and can’t be taken: Grounded on")
        .contains("Held: do not fly", "no pre-flight inspection is signed")
        .doesNotContain("action=\"/aircraft/" + aircraft + "/acceptance\"");
    assertThat(rows()).isEqualTo("0 inspections, 0 acceptances, 0 signatures");
  }

  @Test
  void whatWasShownMustStillBeSo() throws SQLException {
    Filled opened = pilot.filled(page, "/acceptance", BOTH);
    ramp.flown(base, aircraft, "1.0", Duration.ofHours(3));

    Response refused = pilot.send(opened);
    assertThat(refused.statusCode()).isEqualTo(409);
    assertThat(refused.asString())
        .contains("The records of QX-ABC have changed since you opened this page.")
        .contains("value=\"120.5\"");
    assertThat(rows()).isEqualTo("0 inspections, 0 acceptances, 0 signatures");

    Filled again = Visitor.filledIn(refused.asString(), page, "/acceptance", BOTH);
    assertThat(pilot.send(again).statusCode()).isEqualTo(303);
  }

  @Test
  void aFormSentTwiceIsSignedOnce() throws SQLException {
    Filled opened = pilot.filled(page, "/acceptance", BOTH);
    assertThat(pilot.send(opened).statusCode()).isEqualTo(303);
    assertThat(pilot.send(opened).statusCode()).isEqualTo(303);
    assertThat(rows()).isEqualTo("1 inspections, 1 acceptances, 2 signatures");
  }

  @Test
  void anAcceptanceNeedsAnInspection() throws SQLException {
    Filled alone = pilot.filled(page, "/acceptance", BOTH);
    alone.fields().remove("inspected");
    Response refused = pilot.send(alone);
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString()).contains("Acceptance needs a pre-flight inspection signed");

    Filled inspection = pilot.filled(page, "/acceptance", BOTH);
    inspection.fields().remove("accepts");
    assertThat(pilot.send(inspection).statusCode()).isEqualTo(303);
    assertThat(rows()).isEqualTo("1 inspections, 0 acceptances, 1 signatures");
    assertThat(pilot.send(alone).statusCode()).isEqualTo(303);
    assertThat(rows()).isEqualTo("1 inspections, 1 acceptances, 2 signatures");
  }

  @Test
  void whatIsLeftOutOrWrongIsToldAtItsField() throws SQLException {
    Filled whole = pilot.filled(page, "/acceptance", BOTH);
    Filled nothing = whole.but("fuel", "");
    nothing.fields().remove("inspected");
    nothing.fields().remove("accepts");
    assertThat(pilot.send(nothing).asString()).contains("Tick what you sign");
    assertThat(pilot.send(whole.but("fuel", "")).asString())
        .contains("Fuel on board must not be blank");
    assertThat(pilot.send(whole.but("fuel", "12,5")).asString())
        .contains("Fuel on board has a comma");
    assertThat(pilot.send(whole.but("password", "")).asString())
        .contains("Password must not be blank");
    assertThat(pilot.send(whole.but("licence", "P-999")).asString())
        .contains("Licence must be one of the choices shown");
    assertThat(rows()).isEqualTo("0 inspections, 0 acceptances, 0 signatures");
  }

  @Test
  void aLicenceThatHasExpiredSignsNothing() {
    LocalDate yesterday = base.owner().dateOf(clock.instant()).minusDays(1);
    members.addLicence(
        base.owner(),
        base.company().people().get(Role.PILOT),
        new Members.NewLicence("P-7", "private pilot licence", "", "", yesterday));
    assertThat(pilot.get(page).asString()).contains("P-114").doesNotContain("P-7");
    AcceptanceDraft draft = ramp.draft(base.pilot(), aircraft, "P-7");
    assertThatThrownBy(() -> acceptances.sign(base.pilot(), aircraft, draft, Company.PASSWORD))
        .isInstanceOf(Refusal.class)
        .hasMessage("Licence must be one of yours that is good today.");
  }

  @Test
  void whereALicenceIsNeededNobodySignsWithoutOne() {
    assertThatThrownBy(
            () ->
                signatures.file(
                    base.pilot(),
                    identity.prove(base.pilot(), Company.PASSWORD),
                    Signer.pilot("", true),
                    List.<Signing>of()))
        .isInstanceOf(Refusal.class)
        .hasMessage("Licence is needed: choose the one you sign under.");
    assertThatThrownBy(
            () ->
                signatures.file(
                    base.pilot(),
                    identity.prove(base.pilot(), Company.PASSWORD),
                    Signer.engineer("E-1"),
                    List.<Signing>of()))
        .isInstanceOf(Refusal.class)
        .hasMessage("You may not sign this as engineer.");
  }

  @Test
  void aProofIsOfThePersonWhoSigns() {
    var proof = identity.prove(base.engineer(), Company.PASSWORD);
    assertThatThrownBy(
            () ->
                signatures.file(
                    base.pilot(), proof, Signer.pilot("P-114", true), List.<Signing>of()))
        .isInstanceOf(IllegalStateException.class);
  }

  @Test
  void someoneElsesViewOfItIsNotSigned() {
    AcceptanceDraft draft = ramp.draft(base.pilot(), aircraft, "P-114");
    AcceptanceDraft other =
        new AcceptanceDraft(
            true, true, draft.fuel(), draft.oil(), "", "P-114", "0".repeat(64), UUID.randomUUID());
    assertThatThrownBy(() -> acceptances.sign(base.pilot(), aircraft, other, Company.PASSWORD))
        .isInstanceOf(Stale.class);
  }

  @Test
  void afterMaintenanceTheListIsShownUntilItHasFlown() {
    UUID requirement =
        ramp.requirement(
            base, aircraft, "50 h service", Rule.first(Limit.Every.of(Counter.HOURS, "50")));
    ramp.flown(base, aircraft, "1.5", Duration.ofHours(30));
    ramp.done(base, requirement, aircraft, Duration.ofHours(20));
    assertThat(pilot.get(page).asString())
        .contains("Since 50 h service,")
        .contains("certified by engineer, licence E-1")
        .contains("(an example list, to be replaced by the operator’s)")
        .contains("each surface moves in the correct sense");

    ramp.flown(base, aircraft, "1.0", Duration.ofHours(2));
    assertThat(pilot.get(page).asString())
        .doesNotContain("each surface moves in the correct sense");
  }

  @Test
  void whatWasPutRightLatelyIsShownAndRemindsOfTheList() {
    ramp.flown(base, aircraft, "1.0", Duration.ofHours(5));
    ramp.putRight(base, aircraft, "Left alternator light flickers");
    assertThat(pilot.get(page).asString())
        .contains("Nothing recorded prevents flight.")
        .contains("Defect No. 1, Left alternator light flickers</a>: put right on ")
        .contains("signed under licence E-1.")
        .contains("each surface moves in the correct sense");
  }

  @Test
  void theSheetToCarryHoldsWhatTheLawAsksFor() {
    ramp.requirement(
        base, aircraft, "Compass swing", Rule.first(Limit.Fixed.at(Counter.HOURS, "6060")));
    String sheet = pilot.get("/aircraft/" + aircraft + "/sheet").asString();
    assertThat(sheet)
        .contains("6,050.0 h")
        .contains("100 h inspection")
        .contains("6,100.0 h")
        .contains("Compass swing")
        .contains("None is recorded.")
        .contains("it releases nothing");
  }

  /** Nothing was flown, so there is no rate of use to project any date with. */
  @Test
  void whatFallsDueBeforeTheNextInspectionIsOutOfPhaseWithoutAnyRate() {
    ramp.requirement(
        base,
        aircraft,
        "Oil filter",
        RequirementKind.SERVICE,
        Rule.first(Limit.Fixed.at(Counter.HOURS, "6060")));
    ramp.requirement(
        base,
        aircraft,
        "Hoses",
        RequirementKind.SERVICE,
        Rule.first(Limit.Fixed.at(Counter.HOURS, "6100")));
    ramp.requirement(
        base,
        aircraft,
        "A first aid kit",
        RequirementKind.SERVICE,
        Rule.first(Limit.Fixed.on(LocalDate.of(2099, 1, 1))));
    String sheet = pilot.get("/aircraft/" + aircraft + "/sheet").asString();
    assertThat(sheet)
        .contains(
            "<th scope=\"row\">Oil filter <span class=\"soft\">out of phase: before the next inspection")
        .contains(">100 h inspection</th>", ">Hoses</th>", ">A first aid kit</th>");
    assertThat(sheet.indexOf("Oil filter"))
        .as("what bites first on top")
        .isLessThan(sheet.indexOf(">A first aid kit</th>"))
        .isLessThan(sheet.indexOf(">100 h inspection</th>"));
  }

  @Test
  void theLastInspectionIsOneOfTheWholeAircraft() {
    Rule rule = Rule.first(Limit.Every.of(Counter.HOURS, "200"));
    UUID small = ramp.requirement(base, aircraft, "Fire extinguisher weighed", rule);
    ramp.done(base, small, aircraft, Duration.ofDays(10));
    assertThat(pilot.get(page).asString())
        .as("where no inspection does other work too, each that flight waits for is one")
        .containsPattern("Last inspection: <a href=\"[^\"]+\">Fire extinguisher weighed</a>");
    UUID large = ramp.covering(base, aircraft, "200 h inspection", rule, small);
    ramp.done(base, large, aircraft, Duration.ofDays(20));
    assertThat(pilot.get(page).asString())
        .containsPattern("Last inspection: <a href=\"[^\"]+\">200 h inspection</a>");
  }

  @Test
  void aConfirmedRepeatSaysHowOftenItWasReported() {
    UUID first = ramp.reported(base, aircraft, "Left alternator light flickers");
    UUID second = ramp.reported(base, aircraft, "Alternator light again");
    UUID third = ramp.reported(base, aircraft, "And again");
    assertThat(pilot.get(page).asString()).doesNotContain("A confirmed repeat");
    repeats.say(base.engineer(), second, first, true, "", UUID.randomUUID());
    repeats.say(base.engineer(), third, second, true, "", UUID.randomUUID());
    assertThat(pilot.get(page).asString())
        .contains("<b>A confirmed repeat: reported 2 times</b>")
        .contains("<b>A confirmed repeat: reported 3 times</b>");
    assertThat(pilot.get("/aircraft/" + aircraft + "/sheet").asString())
        .contains("A confirmed repeat: reported 3 times");
    repeats.say(base.engineer(), second, first, false, "", UUID.randomUUID());
    assertThat(pilot.get(page).asString())
        .contains("<b>A confirmed repeat: reported 2 times</b>")
        .doesNotContain("reported 3 times");
  }

  /** What was worked on after the inspection has not been inspected. */
  @Test
  void workSinceTheInspectionAsksForAnotherBeforeItIsAccepted() throws SQLException {
    Filled inspection = pilot.filled(page, "/acceptance", BOTH);
    inspection.fields().remove("accepts");
    assertThat(pilot.send(inspection).statusCode()).isEqualTo(303);
    ramp.putRight(base, aircraft, "Right tyre is worn");
    Filled alone = pilot.filled(page, "/acceptance", BOTH);
    alone.fields().remove("inspected");
    assertThat(pilot.send(alone).asString())
        .contains("since it last flew and since any work on it.");
    assertThat(rows())
        .as("of the inspection and of the work")
        .isEqualTo("1 inspections, 0 acceptances, 2 signatures");
    assertThat(pilot.fillIn(page, "/acceptance", BOTH).statusCode()).isEqualTo(303);
  }

  @Test
  void theInspectionOfAnEventSinceAsksForAnotherBeforeItIsAccepted() throws SQLException {
    Filled inspection = pilot.filled(page, "/acceptance", BOTH);
    inspection.fields().remove("accepts");
    assertThat(pilot.send(inspection).statusCode()).isEqualTo(303);
    ramp.inspectedFor(base, aircraft, "hail", Duration.ofHours(5));
    Filled alone = pilot.filled(page, "/acceptance", BOTH);
    alone.fields().remove("inspected");
    assertThat(pilot.send(alone).asString())
        .contains("since it last flew and since any work on it.");
    assertThat(pilot.fillIn(page, "/acceptance", BOTH).statusCode()).isEqualTo(303);
  }

  @Test
  void whatWasPutRightLastIsWorkHoweverManyWereFoundAfterIt() {
    for (int i = 0; i < DefectBook.PAGE; i++) {
      ramp.putRight(base, aircraft, "Lamp " + i, Duration.ofDays(2), Duration.ofDays(2));
    }
    ramp.putRight(base, aircraft, "Seat rail worn", Duration.ofDays(9), Duration.ZERO);
    assertThat(preFlights.shown(base.pilot(), aircraft).work().title()).endsWith("Seat rail worn");
    assertThat(pilot.get(page).asString()).contains("Seat rail worn</a>: put right on ");
  }

  @Test
  void anotherOperatorsAircraftIsNotHere() {
    Visitor stranger = ramp.base().company().visitor(Role.PILOT);
    assertThat(stranger.get(page).statusCode()).isEqualTo(404);
    assertThat(stranger.send(pilot.filled(page, "/acceptance", BOTH)).statusCode()).isEqualTo(404);
  }

  @Test
  void theReadingForAFilingSaysTheSameAsThePage() {
    assertThat(preFlights.locked(base.pilot(), aircraft).seen())
        .isEqualTo(preFlights.shown(base.pilot(), aircraft).seen());
  }

  private static Map<String, String> with(String field, String value) {
    Map<String, String> all = new TreeMap<>(BOTH);
    all.put(field, value);
    return all;
  }

  private String rows() throws SQLException {
    String of = " where aircraft_id = '" + aircraft + "'";
    return asked("select count(*) from preflight_inspection" + of)
        + " inspections, "
        + asked("select count(*) from acceptance" + of)
        + " acceptances, "
        + asked("select count(*) from signature" + of)
        + " signatures";
  }

  private String failures() throws SQLException {
    return asked(
        "select failures from sign_in_brake where subject = 'name:pilot@"
            + base.company().name()
            + "'");
  }

  private static String asked(String query) throws SQLException {
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(query)) {
      return rows.next() ? rows.getString(1) : null;
    }
  }
}
