package trestle.apron;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.defects.DefectBook;
import trestle.fleet.Hangar;
import trestle.flights.Flights;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.web.Role;
import trestle.web.Viewer;

/** The report as the server takes it: from a form, and from the phone's outbox. */
@QuarkusTest
class ReportPagesTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");
  private static final Pattern SCRIPT = Pattern.compile("src=\"(/assets/[^\"]+\\.js)\"");
  private static int companies;

  @Inject Hangar hangar;
  @Inject Flights flights;
  @Inject DefectBook defects;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private Viewer viewer;
  private Visitor pilot;
  private UUID aircraft;

  @BeforeEach
  void found() {
    company = Company.founded("reports-" + companies++, operators, members);
    viewer = company.viewer(Role.PILOT);
    pilot = company.visitor(Role.PILOT);
    aircraft = hangar.single(company.viewer(Role.OWNER), "QX-SOR", BEGINNING);
  }

  @Test
  void aDefectThatMustNotFlyHoldsTheAircraftAndThePageThatFollowsSaysSo() {
    Response filed = pilot.post(reports(), withDefect(flight("09:00", "10:00")));
    assertThat(filed.statusCode()).isEqualTo(303);
    String page = pilot.get(Visitor.leadsTo(filed)).asString();
    assertThat(page).contains("Received as No. ", "Held", "Alternator light flickered");
    String flight = Visitor.leadsTo(filed).replaceFirst(".*/reports/", "/flights/");
    for (String shows : List.of(flight, "/aircraft/" + aircraft + "/flights")) {
      assertThat(pilot.get(shows).asString())
          .as(shows)
          .contains(">Defect No. 1</a>, Alternator light flickered twice in the climb, open");
    }
    assertThat(flown()).isEqualTo(1);
    var entry = defects.page(viewer, aircraft, false, 1).entries().get(0);
    assertThat(entry.current().defect().discoveredAt())
        .as("found at the landing")
        .isEqualTo(Instant.parse("2025-03-10T10:00:00Z"));
  }

  @Test
  void itComesBackWithItsEarlierOccurrences() {
    pilot.post(reports(), withDefect(flight("09:00", "10:00")));
    Response again = pilot.post(reports(), withDefect(flight("11:00", "12:00")));
    assertThat(pilot.get(Visitor.leadsTo(again)).asString())
        .contains("It may have come back", "same aircraft");
  }

  @Test
  void thatNothingWasWrongIsSaidAndNeverTakenForGranted() {
    Map<String, String> silent = flight("09:00", "10:00");
    silent.remove("anything-wrong");
    Response refused = pilot.post(reports(), silent);
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString()).contains("Say whether anything was wrong");
    assertThat(flown()).isZero();
  }

  @Test
  void flightAndDefectAreFiledTogetherOrNotAtAll() {
    Response refused =
        pilot.upload(
            reports(),
            withDefect(flight("09:00", "10:00")),
            List.of(
                new Visitor.Chosen(
                    "photos",
                    "photo.jpg",
                    "<script>alert(1)</script>".getBytes(StandardCharsets.UTF_8),
                    "image/jpeg")));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString()).contains("photo.jpg");
    assertThat(flown()).isZero();
    assertThat(reported()).isZero();
  }

  @Test
  void theSameKeyAnswersTheSameAndWithAnotherBodyIsAConflict() {
    Map<String, String> report = withDefect(flight("09:00", "10:00"));
    Response first = pilot.postForJson(reports(), report);
    Response again = pilot.postForJson(reports(), report);
    assertThat(first.statusCode()).isEqualTo(200);
    assertThat(first.jsonPath().getLong("receivedAs")).isPositive();
    assertThat(again.asString()).isEqualTo(first.asString());
    assertConflict(changed(report, "landing", "10:30"));
    assertConflict(changed(report, "words", "Volts high"));
    assertConflict(changed(report, "anything-wrong", "nothing"));
    Map<String, String> clean = flight("11:00", "12:00");
    pilot.postForJson(reports(), clean);
    assertConflict(withDefect(clean));
    assertThat(flown()).isEqualTo(2);
    assertThat(reported()).isEqualTo(1);
  }

  @Test
  void aDefectAloneIsTakenFromThePhoneInTheSameWay() {
    Map<String, String> report = defect("Nose tyre is flat");
    Response first = pilot.postForJson("/defects", report);
    assertThat(first.statusCode()).as(first.asString()).isEqualTo(200);
    assertThat(first.jsonPath().getLong("receivedAs")).isEqualTo(1);
    assertThat(first.jsonPath().getString("what")).isEqualTo("defect");
    assertThat(pilot.postForJson("/defects", report).asString()).isEqualTo(first.asString());
    Response conflict = pilot.postForJson("/defects", changed(report, "words", "Main tyre"));
    assertThat(conflict.statusCode()).isEqualTo(409);
    assertThat(first.jsonPath().getString("link"))
        .startsWith(conflict.jsonPath().getString("link"));
    Response refused = pilot.postForJson("/defects", changed(defect("x"), "judgement", ""));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.jsonPath().getString("errors[0].field")).isEqualTo("/judgement");
    Map<String, String> theirs = defect("Oil on the cowling");
    theirs.put("written-by", UUID.randomUUID().toString());
    assertThat(pilot.postForJson("/defects", theirs).statusCode()).isEqualTo(403);
    assertThat(reported()).isEqualTo(1);
  }

  @Test
  void anAbnormalEventIsTakenFromThePhoneInTheSameWay() {
    Map<String, String> event = new HashMap<>();
    event.put("form-key", UUID.randomUUID().toString());
    event.put("aircraft", aircraft.toString());
    event.put("kind", "heavy-landing");
    event.put("words", "Dropped from a metre");
    event.put("on", "10 Mar 2025");
    Response first = pilot.postForJson("/abnormal-events", event);
    assertThat(first.statusCode()).as(first.asString()).isEqualTo(200);
    assertThat(first.jsonPath().getString("what")).isEqualTo("event");
    assertThat(pilot.postForJson("/abnormal-events", event).asString()).isEqualTo(first.asString());
    for (String field : List.of("on", "words")) {
      String other = field.equals("on") ? "11 Mar 2025" : "Dropped from two";
      assertThat(pilot.postForJson("/abnormal-events", changed(event, field, other)).statusCode())
          .isEqualTo(409);
    }
    assertThat(pilot.postForJson("/abnormal-events", changed(event, "kind", "")).statusCode())
        .isEqualTo(422);
  }

  @Test
  void thePhoneIsToldFieldByFieldWhatIsWrong() {
    Response refused = pilot.postForJson(reports(), flight("09:00", "10:81"));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.contentType()).isEqualTo("application/problem+json");
    assertThat(refused.jsonPath().getString("errors[0].field")).isEqualTo("/landing");
    assertThat(refused.jsonPath().getString("errors[0].value")).isEqualTo("10:81");
    assertThat(refused.jsonPath().getString("errors[0].reason"))
        .isEqualTo("Landing must be a time, like 10:18");
  }

  @Test
  void nobodySendsWhatSomebodyElseHasWritten() {
    Map<String, String> report = flight("09:00", "10:00");
    report.put("written-by", company.people().get(Role.PILOT).toString());
    report.put("written-in", company.operatorId().toString());
    assertThat(company.visitor(Role.OWNER).postForJson(reports(), report).statusCode())
        .isEqualTo(403);
    assertThat(flown()).isZero();
    assertThat(pilot.postForJson(reports(), report).statusCode()).isEqualTo(200);
  }

  @Test
  void anAuditorAndAStrangersOperatorGetAProblem() {
    Response auditor =
        company.visitor(Role.AUDITOR).postForJson(reports(), flight("09:00", "10:00"));
    assertThat(auditor.statusCode()).isEqualTo(403);
    assertThat(auditor.contentType()).isEqualTo("application/problem+json");
    Response stranger =
        pilot.postForJson("/aircraft/" + UUID.randomUUID() + "/reports", flight("09:00", "10:00"));
    assertThat(stranger.statusCode()).isEqualTo(404);
    assertThat(stranger.contentType()).isEqualTo("application/problem+json");
    assertThat(pilot.withoutSession().postForJson(reports(), Map.of()).statusCode()).isEqualTo(401);
  }

  @Test
  void theSenderIsWhoeverIsSignedIn() {
    Response sender = pilot.get("/outbox/sender");
    assertThat(sender.jsonPath().getString("person")).isEqualTo(viewer.personId().toString());
    assertThat(sender.jsonPath().getString("operator")).isEqualTo(viewer.operatorId().toString());
    assertThat(sender.header("Cache-Control")).isEqualTo("no-store");
    assertThat(Visitor.atTheDoor().get("/outbox/sender").jsonPath().getString("person")).isNull();
  }

  @Test
  void theAircraftOfWhichSomebodyReportedLastIsKeptFirst() {
    UUID other = hangar.single(company.viewer(Role.OWNER), "QX-TBC", BEGINNING);
    assertThat(pilot.get("/outbox/pages").jsonPath().getString("pages[0].label"))
        .contains("QX-SOR");
    Map<String, String> lately = flight("00:00", "00:00");
    lately.put("date", LocalDate.now(ZoneOffset.UTC).toString());
    pilot.post("/aircraft/" + other + "/reports", lately);
    assertThat(pilot.get("/outbox/pages").jsonPath().getString("pages[0].label"))
        .contains("QX-TBC");
    String opened = "/outbox/pages?opened=nothing&opened=" + aircraft;
    assertThat(pilot.get(opened).jsonPath().getString("pages[0].label"))
        .as("who looked at one is likely to fly it")
        .contains("QX-SOR");
  }

  @Test
  void theServiceWorkerIsAskedForEachTimeAndNamesItsRelease() {
    Response worker = pilot.get("/sw.js");
    assertThat(worker.header("Cache-Control")).isEqualTo("no-cache");
    assertThat(worker.contentType()).startsWith("text/javascript");
    assertThat(worker.asString()).startsWith("const RELEASE = '").contains(script());
    Response manifest = pilot.get("/manifest.webmanifest");
    assertThat(manifest.contentType()).startsWith("application/manifest+json");
    String icon = manifest.jsonPath().getString("icons[1].src");
    assertThat(pilot.get(icon).contentType()).isEqualTo("image/png");
  }

  /** What a phone on a bad link has to load before anything shows. */
  @Test
  void thePagesAreLight() throws IOException {
    String page = pilot.get(reports() + "/new").asString();
    assertThat(page).as("it carries its style").contains("<style>").doesNotContain("stylesheet");
    assertThat(compressed(page)).as("form and style").isLessThan(14 * 1024);
    assertThat(compressed(pilot.get(script()).asString())).as("script").isLessThan(9 * 1024);
  }

  private String script() {
    Matcher script = SCRIPT.matcher(pilot.get("/outbox").asString());
    assertThat(script.find()).isTrue();
    return script.group(1);
  }

  private static int compressed(String text) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream gzip = new GZIPOutputStream(bytes)) {
      gzip.write(text.getBytes(StandardCharsets.UTF_8));
    }
    return bytes.size();
  }

  private void assertConflict(Map<String, String> report) {
    Response conflict = pilot.postForJson(reports(), report);
    assertThat(conflict.statusCode()).as(conflict.asString()).isEqualTo(409);
    assertThat(conflict.jsonPath().getString("link")).startsWith("/flights/");
  }

  private static Map<String, String> changed(Map<String, String> report, String name, String to) {
    Map<String, String> other = new LinkedHashMap<>(report);
    other.put(name, to);
    return other;
  }

  private static Map<String, String> withDefect(Map<String, String> flight) {
    Map<String, String> report = new LinkedHashMap<>(flight);
    report.put("anything-wrong", "defect");
    report.put("words", "Alternator light flickered twice in the climb");
    report.put("judgement", "must-not-fly");
    report.put("system", "24");
    report.put("place", "Panel, left");
    return report;
  }

  private Map<String, String> defect(String words) {
    Map<String, String> report = new LinkedHashMap<>();
    report.put("form-key", UUID.randomUUID().toString());
    report.put("aircraft", aircraft.toString());
    report.put("words", words);
    report.put("judgement", "can-fly");
    report.put("found-on", "10 Mar 2025");
    return report;
  }

  private static Map<String, String> flight(String takeOff, String landing) {
    Map<String, String> flight = new LinkedHashMap<>();
    flight.put("form-key", UUID.randomUUID().toString());
    flight.put("date", "10 Mar 2025");
    flight.put("from", "Port Maddern");
    flight.put("to", "Skell Island");
    flight.put("take-off", takeOff);
    flight.put("landing", landing);
    flight.put("landings", "1");
    flight.put("commander", "R. Ness");
    flight.put("anything-wrong", "nothing");
    return flight;
  }

  private String reports() {
    return "/aircraft/" + aircraft + "/reports";
  }

  private long flown() {
    return flights.page(viewer, aircraft, View.EVERYTHING, 1).flights();
  }

  private long reported() {
    return defects.page(viewer, aircraft, false, 1).defects();
  }
}
