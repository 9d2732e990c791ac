package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.reckoning.Counter;
import trestle.web.Role;

/** Logging a flight by pages, putting it right, and what the pages then say. */
@QuarkusTest
class FlightPagesTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");
  private static int companies;

  @Inject Hangar hangar;
  @Inject UsageLines lines;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private Visitor pilot;
  private UUID aircraft;

  @BeforeEach
  void found() {
    company = Company.founded("flight-pages-" + companies++, operators, members);
    pilot = company.visitor(Role.PILOT);
    aircraft = hangar.single(company.viewer(Role.OWNER), "QX-SOR", BEGINNING);
  }

  @Test
  void aPilotLogsAFlightAndTheNextSectorFollowsOn() {
    Response form = pilot.get("/aircraft/" + aircraft + "/flights/new");
    assertThat(form.asString()).contains("Log a flight", "value=\"pilot\"", "6,000.0 h");
    Map<String, String> flight = flight("09:12", "10:18");
    flight.put("then", "next");
    Response filed = pilot.post("/aircraft/" + aircraft + "/flights", flight);
    assertThat(filed.statusCode()).isEqualTo(303);
    String next = pilot.get(path(filed)).asString();
    assertThat(next).contains("value=\"Skell Island\"", "6,001.1 h");
    assertThat(pilot.get("/aircraft/" + aircraft + "/flights").asString())
        .contains("Port Maddern to Skell Island", "09:12–10:18", "6,001.1");
  }

  @Test
  void whatIsWrongIsToldAndEverythingTypedIsKept() {
    Map<String, String> flight = flight("09:12", "10:81");
    flight.put("remarks", "Smooth <all the way>");
    Response refused = pilot.post("/aircraft/" + aircraft + "/flights", flight);
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString())
        .contains(
            "Landing must be a time, like 10:18", "value=\"10:81\"", "Smooth &lt;all the way&gt;")
        .contains("<title>Error: ");
    assertThat(hours()).isEqualTo(Hangar.hours(6_000));
  }

  @Test
  void theSameFormTwiceIsOneFlightAndWithOtherContentAConflict() {
    Map<String, String> flight = flight("09:00", "10:00");
    flight.put("form-key", UUID.randomUUID().toString());
    String path = "/aircraft/" + aircraft + "/flights";
    Response first = pilot.post(path, flight);
    Response again = pilot.post(path, flight);
    assertThat(path(again)).isEqualTo(path(first));
    flight.put("landing", "10:30");
    assertThat(pilot.post(path, flight).statusCode()).isEqualTo(409);
    assertThat(hours()).isEqualTo(Hangar.hours(6_001));
  }

  @Test
  void aCorrectionShowsBothAndAStaleOneShowsWhatIsOnFile() {
    String flight =
        path(pilot.post("/aircraft/" + aircraft + "/flights", flight("09:00", "10:00")));
    String correction = flight.replaceAll("\\?.*", "") + "/correction";
    assertThat(pilot.get(correction).asString()).contains("value=\"10:00\"");
    Map<String, String> corrected = flight("09:00", "10:30");
    corrected.put("reason", "Misread the clock");
    Response done = pilot.post(correction, corrected);
    assertThat(done.statusCode()).isEqualTo(303);
    assertThat(pilot.get(path(done)).asString())
        .contains(
            "Misread the clock", "<s>10 March 2025, 10:00 UTC</s>", "10 March 2025, 10:30 UTC");
    assertThat(hours()).isEqualTo(Hangar.hours(6_001.5));

    Response stale = pilot.post(correction, corrected);
    assertThat(stale.statusCode()).isEqualTo(409);
    assertThat(stale.asString()).contains("Now on file", "Misread the clock");
  }

  @Test
  void anOverlappingFlightIsFiledAndStandsAsDisputed() {
    pilot.post("/aircraft/" + aircraft + "/flights", flight("09:00", "10:00"));
    Response second = pilot.post("/aircraft/" + aircraft + "/flights", flight("09:30", "10:30"));
    assertThat(second.statusCode()).isEqualTo(303);
    assertThat(pilot.get(path(second)).asString()).contains("disputed", "Overlap");
    Visitor controller = company.visitor(Role.CONTROLLER);
    String breaks = controller.get("/aircraft/" + aircraft + "/breaks").asString();
    assertThat(breaks).contains("30 minutes before the landing of another flight");
    String flight = path(second).replaceAll("\\?.*", "");
    assertThat(controller.get(flight + "/explanations?kind=overlap").statusCode()).isEqualTo(200);
    Map<String, String> word =
        Map.of("kind", "overlap", "amount", "1800", "explanation", "The other one is wrong");
    assertThat(controller.post(flight + "/explanations", word).statusCode()).isEqualTo(303);
    assertThat(controller.get("/aircraft/" + aircraft + "/breaks").asString())
        .contains("The other one is wrong");
    assertThat(pilot.post(flight + "/explanations", word).statusCode()).isEqualTo(403);
  }

  @Test
  void theLogIsShownAsItWasOnAnotherDay() {
    pilot.post("/aircraft/" + aircraft + "/flights", flight("09:00", "10:00"));
    String log = "/aircraft/" + aircraft + "/flights?as-at=";
    assertThat(pilot.get(log + "2025-03-09").asString())
        .contains("No flight is logged in this view");
    assertThat(pilot.get(log + "2025-03-10").asString()).contains("09:00–10:00");
    assertThat(pilot.get(log + "yesterday").statusCode()).isEqualTo(400);
  }

  @Test
  void aFlightIsFiledAndCorrectedThroughThePagesOwnForms() {
    String log = "/aircraft/" + aircraft + "/flights";
    Response filed = pilot.fillIn(log + "/new", "/flights", flight("09:00", "10:30"));
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(303);
    String page = filed.header("Location").replaceAll("^https?://[^/]+|\\?.*$", "");
    assertThat(pilot.get(log).asString()).contains("09:00–10:30");
    Response corrected =
        pilot.fillIn(
            page + "/correction",
            "/correction",
            java.util.Map.of("landing", "09:30", "reason", "Read from the wrong line"));
    assertThat(corrected.statusCode()).as(corrected.asString()).isEqualTo(303);
    assertThat(pilot.get(log).asString()).contains("09:00–09:30").contains("09:00–10:30");
  }

  @Test
  void aStatedRateTakesThePlaceOfWhatWasFlownUntilItIsTakenBack() {
    Visitor owner = company.visitor(Role.OWNER);
    String rates = "/aircraft/" + aircraft + "/rates";
    assertThat(owner.get(rates).asString()).contains("no rate: no date is projected");
    Map<String, String> stated = Map.of("counter", "hours", "rate", "0.8");
    assertThat(owner.fillIn(rates, "/rates", stated).statusCode()).isEqualTo(303);
    assertThat(pilot.get(rates).asString())
        .contains("0.8 h a day, stated")
        .doesNotContain("State it");
    Map<String, String> wrong = Map.of("counter", "hours", "rate", "0.80001");
    Response refused = owner.fillIn(rates, "/rates", wrong);
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString()).contains("value=\"0.80001\"", "Rate a day must");
    owner.fillIn(rates, "/rates", Map.of("counter", "hours", "rate", ""));
    assertThat(owner.get(rates).asString()).doesNotContain("0.8 h a day");
    assertThat(pilot.post(rates, stated).statusCode()).isEqualTo(403);
  }

  @Test
  void noPageShowsAnExpressionInsteadOfItsValue() {
    for (String page : new String[] {"/flights/new", "/counters", "/positions", "/groundings"}) {
      assertThat(company.visitor(Role.OWNER).get("/aircraft/" + aircraft + page).asString())
          .as(page)
          .doesNotContainPattern("\\{[a-z][A-Za-z.]*\\}");
    }
  }

  @Test
  void everyPageOfTheseRoomsOpens() {
    Visitor owner = company.visitor(Role.OWNER);
    UUID engine =
        hangar.engine(company.viewer(Role.OWNER), "E-1", BEGINNING, Hangar.hours(100), null);
    hangar.fit(company.viewer(Role.OWNER), engine, aircraft, "engine", BEGINNING);
    String at = "/aircraft/" + aircraft;
    for (String path :
        new String[] {
          "/aircraft/new",
          at + "/particulars",
          at + "/counters",
          at + "/meter-changes/new",
          at + "/positions",
          at + "/groundings",
          at + "/flights",
          at + "/breaks",
          at + "/rates",
          "/components",
          "/components/new",
          "/components/" + engine,
          "/components/" + engine + "/fitments",
          "/components/" + engine + "/removals",
          "/components/" + engine + "/overhauls"
        }) {
      assertThat(owner.get(path).statusCode()).as(path).isEqualTo(200);
    }
    assertThat(owner.get("/components/" + engine).asString())
        .contains("QX-SOR, Engine", "100.0 h", "not known");
  }

  private long hours() {
    return lines
        .of(company.viewer(Role.OWNER), aircraft, View.EVERYTHING)
        .unitsAt(Instant.MAX, Counter.HOURS);
  }

  private static String path(Response answer) {
    return answer.header("Location").replaceFirst("https?://[^/]+", "");
  }

  private static Map<String, String> flight(String takeOff, String landing) {
    Map<String, String> fields = new LinkedHashMap<>();
    fields.put("date", "10 Mar 2025");
    fields.put("from", "Port Maddern");
    fields.put("to", "Skell Island");
    fields.put("take-off", takeOff);
    fields.put("landing", landing);
    fields.put("landings", "1");
    fields.put("commander", "I. Tarn");
    return fields;
  }
}
