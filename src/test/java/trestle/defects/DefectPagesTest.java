package trestle.defects;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Instant;
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
