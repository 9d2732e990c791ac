package trestle.defects;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.net.URL;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.web.Role;

/** Defects by pages: reported with photos, held at once, put right, closed. */
@QuarkusTest
class DefectPagesTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");
  private static int companies;

  @TestHTTPResource("/")
  URL server;

  @Inject Hangar hangar;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private Visitor pilot;
  private UUID aircraft;

  @BeforeEach
  void found() {
    company = Company.founded("defect-pages-" + companies++, operators, members);
    pilot = company.visitor(Role.PILOT);
    aircraft = hangar.single(company.viewer(Role.OWNER), "QX-SOR", BEGINNING);
  }

  @Test
  void aPilotReportsADefectAndTheAircraftIsHeldAtOnce() {
    assertThat(pilot.get("/defects/new?aircraft=" + aircraft).asString())
        .contains("Report a defect", "multipart/form-data", "accept=\"image/jpeg");
    Response filed =
        pilot.fillIn(
            "/defects/new?aircraft=" + aircraft,
            "/defects",
            Map.of(
                "words",
                "Alternator light flickered twice in the climb, volts steady.",
                "judgement",
                "must-not-fly",
                "system",
                "alternator"));
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(303);
    String page = pilot.get(path(filed)).asString();
    assertThat(page).contains("Defect No. 1", "is held from now on", "24 Electrical power");
    assertThat(pilot.get("/aircraft/" + aircraft).asString())
        .contains("Held", "Defect No. 1, must not fly: Alternator light flickered");
    assertThat(company.visitor(Role.ENGINEER).get("/defects").asString())
        .contains("QX-SOR", "1 open defect", "Alternator light flickered");
    assertThat(pilot.get("/aircraft/" + aircraft + "/defects").asString())
        .contains("Alternator light flickered");
  }

  @Test
  void photosComeWithAReport() {
    Map<String, String> fields = report();
    Response filed =
        pilot.upload(
            "/defects",
            fields,
            List.of(
                new Visitor.Chosen("photos", "panel.jpg", Snaps.jpeg(640, 480), "image/jpeg"),
                new Visitor.Chosen("photos", "cowl.png", Snaps.png(300, 200), "image/png")));
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(303);
    String page = pilot.get(path(filed)).asString();
    List<String> photos = Snaps.linked(page);
    assertThat(photos).hasSize(2);
    Response photo = pilot.get(photos.get(0));
    assertThat(photo.contentType()).isEqualTo("image/jpeg");
    assertThat(photo.header("X-Content-Type-Options")).isEqualTo("nosniff");
    assertThat(pilot.get(photos.get(0) + "/thumbnail").statusCode()).isEqualTo(200);
  }

  @Test
  void aPhotoThatIsAScriptIsRefusedAndNothingIsFiled() {
    byte[] script = "<script>alert(1)</script>".getBytes(StandardCharsets.UTF_8);
    Response refused =
        pilot.upload(
            "/defects",
            report(),
            List.of(
                new Visitor.Chosen("photos", "fine.jpg", Snaps.jpeg(64, 48), "image/jpeg"),
                new Visitor.Chosen("photos", "evil.jpg", script, "image/jpeg")));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString())
        .contains("Photo “evil.jpg” is not a picture that can be kept: send it as JPEG or PNG.")
        .contains("Oil on the nose leg", "choose them again");
    assertThat(pilot.get("/defects").asString()).contains("Nothing is open");
  }

  @Test
  void aPhotoOfMoreThanTenMegabytesIsRefusedBesideItsField() {
    byte[] large = Arrays.copyOf(Snaps.jpeg(64, 48), (10 << 20) + 1);
    Response refused =
        pilot.upload(
            "/defects",
            report(),
            List.of(new Visitor.Chosen("photos", "large.jpg", large, "image/jpeg")));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString()).contains("Photo “large.jpg” is larger than 10 MB.");
  }

  @Test
  void fiftyMegabytesAreTooMuchAndASentenceSaysSo() throws Exception {
    HttpRequest large =
        HttpRequest.newBuilder(server.toURI().resolve("/defects"))
            .header("Content-Type", "multipart/form-data; boundary=xyz")
            .POST(HttpRequest.BodyPublishers.ofByteArray(new byte[50 << 20]))
            .build();
    HttpResponse<String> refused =
        HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .build()
            .send(large, HttpResponse.BodyHandlers.ofString());
    assertThat(refused.statusCode()).isEqualTo(413);
    assertThat(refused.body()).contains("These files are too much to send", "record pack, 45 MB");
  }

  @Test
  void ordinaryPagesTakeNoMoreThanBefore() {
    Response refused =
        pilot.post("/aircraft/" + aircraft + "/flights", Map.of("remarks", "x".repeat(3 << 20)));
    assertThat(refused.statusCode()).isEqualTo(413);
    Response notThere =
        pilot.upload(
            "/aircraft/" + aircraft + "/groundings",
            Map.of("why", "Hail"),
            List.of(new Visitor.Chosen("photos", "a.jpg", Snaps.jpeg(64, 48), "image/jpeg")));
    assertThat(notThere.statusCode()).isEqualTo(415);
  }

  @Test
  void photosAreSeenByTheirOwnOperatorOnly() {
    Response filed =
        pilot.upload(
            "/defects",
            report(),
            List.of(new Visitor.Chosen("photos", "a.png", Snaps.png(77, 55), "text/html")));
    String photo = Snaps.linked(pilot.get(path(filed)).asString()).get(0);
    Company other = Company.founded("defect-pages-other-" + companies++, operators, members);
    for (String path : List.of(photo, photo + "/thumbnail")) {
      assertThat(other.visitor(Role.OWNER).get(path).statusCode()).isEqualTo(404);
      assertThat(Visitor.atTheDoor().get(path).statusCode()).isEqualTo(303);
      assertThat(company.visitor(Role.AUDITOR).get(path).statusCode()).isEqualTo(200);
    }
    assertThat(pilot.get("/photos/../../etc/passwd").statusCode()).isEqualTo(404);
  }

  @Test
  void aFormWithPhotosWhoseTokenIsMissingComesBackWithItsWords() {
    Visitor other = company.visitor(Role.PILOT);
    pilot.get("/defects/new?aircraft=" + aircraft);
    other.get("/account");
    Response kept =
        pilot.uploadWithToken(
            "forged",
            "/defects",
            report(),
            List.of(new Visitor.Chosen("photos", "a.jpg", Snaps.jpeg(64, 48), "image/jpeg")));
    assertThat(kept.statusCode()).isEqualTo(403);
    assertThat(kept.asString()).contains("Oil on the nose leg").doesNotContain("a.jpg");
    assertThat(pilot.get("/defects").asString()).contains("Nothing is open");
  }

  @Test
  void aFormWithPhotosSentAfterTheSessionEndedIsKeptToo() {
    pilot.withoutSession();
    Response kept =
        pilot.upload(
            "/defects",
            report(),
            List.of(new Visitor.Chosen("photos", "a.jpg", Snaps.jpeg(640, 480), "image/jpeg")));
    assertThat(kept.statusCode()).isEqualTo(401);
    assertThat(kept.asString()).contains("Oil on the nose leg");
  }

  @Test
  void aWordThatMayMeanSeveralSystemsIsAskedAbout() {
    Map<String, String> fields = report();
    fields.put("system", "pump");
    Response asked = pilot.post("/defects", fields);
    assertThat(asked.statusCode()).isEqualTo(422);
    assertThat(asked.asString())
        .contains("may mean several systems", "Which system?", "29 Hydraulic power");
    fields.put("chapter", "29");
    Response filed = pilot.post("/defects", fields);
    assertThat(pilot.get(path(filed)).asString()).contains("29 Hydraulic power");
    assertThat(pilot.get("/chapters?asked=alternator").asString())
        .contains("24 Electrical power")
        .doesNotContain("32 Landing gear");
  }

  @Test
  void whoReportsSeesWhetherItCameBackAndTheEngineerWhatWasDone() {
    Map<String, String> fields = report();
    fields.put("system", "alternator");
    String first = path(pilot.post("/defects", fields)).replaceAll("\\?.*", "");
    members.addLicence(
        company.viewer(Role.OWNER),
        company.people().get(Role.ENGINEER),
        new Members.NewLicence("E-1", "Licensed engineer", "", "", null));
    Visitor engineer = company.visitor(Role.ENGINEER);
    Response closed =
        engineer.fillIn(
            first + "/rectification",
            "/rectification",
            Map.of(
                "done",
                "Belt tightened",
                "data-reference",
                "Manual 24-30",
                "licence",
                "E-1",
                "on",
                "3 Mar 2025",
                "password",
                Company.PASSWORD));
    assertThat(closed.statusCode()).as(closed.asString()).isEqualTo(303);
    assertThat(pilot.get(first).asString())
        .contains("Rectified 3 March 2025", "Belt tightened", "Manual 24-30", "E-1");
    fields.put("found-on", "9 Mar 2025");
    fields.put("words", "The charging light again");
    String second = path(pilot.post("/defects", fields));
    assertThat(pilot.get(second).asString())
        .contains("It may have come back", "Done then: Belt tightened", "7 days");
    assertThat(engineer.get("/defects").asString()).contains("1 earlier occurrence");
    assertThat(engineer.get(second.replaceAll("\\?.*", "") + "/rectification").asString())
        .contains("Done then: Belt tightened");
  }

  private Map<String, String> report() {
    Map<String, String> fields = new HashMap<>();
    fields.put("aircraft", aircraft.toString());
    fields.put("words", "Oil on the nose leg");
    fields.put("judgement", "can-fly");
    fields.put("found-on", "2 Mar 2025");
    return fields;
  }

  private static String path(Response answer) {
    return answer.header("Location").replaceFirst("^https?://[^/]+", "");
  }
}
