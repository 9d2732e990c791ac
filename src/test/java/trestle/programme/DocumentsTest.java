package trestle.programme;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.people.Company;
import trestle.people.Visitor;
import trestle.people.Visitor.Chosen;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.server.TestDatabase;
import trestle.web.Role;
import trestle.web.Viewer;

/** Documents that expire, with the paper itself. */
@QuarkusTest
class DocumentsTest {
  private static final byte[] PDF = "%PDF-1.4 certificate of insurance".getBytes(ISO_8859_1);
  private static final byte[] JPEG = "\u00ff\u00d8\u00ff\u00e0 and more".getBytes(ISO_8859_1);
  private static final byte[] PNG = "\u0089PNG\r\n\u001a\n and more".getBytes(ISO_8859_1);

  @Inject Upkeep upkeep;
  @Inject ComplianceRecords complianceRecords;
  @Inject InstantSource clock;

  @Test
  void aPaperIsFiledWithItsDocumentShownAndKept() throws Exception {
    Company company = upkeep.company();
    Viewer owner = company.viewer(Role.OWNER);
    LocalDate today = owner.dateOf(clock.instant());
    UUID aircraft = upkeep.aircraft(owner, "QX-DOC", today.minusDays(400), "hours=10");
    UUID insurance =
        upkeep.requirement(
            owner,
            aircraft,
            Terms.of(
                "Insurance",
                RequirementKind.DOCUMENT,
                Rule.first(Limit.Every.of(Interval.parse("P12M"))),
                today.minusDays(400)));
    Visitor controller = company.visitor(Role.CONTROLLER);
    String list = "/aircraft/" + aircraft + "/documents";
    assertThat(controller.get(list).asString()).contains("Insurance").contains("no file");
    String form = "/requirements/" + insurance + "/compliances";
    Map<String, Object> fields =
        fields(controller, form + "/new?aircraft=" + aircraft, "/compliances");
    fields.put("how", "transcribe");
    fields.put("transcribed-from", "Policy 77");
    fields.put("on", today.minusDays(30).toString());

    Response refused = controller.upload(form, fields, List.of(file("policy.pdf", "<html>")));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString())
        .contains("File must be a PDF or a JPEG or PNG picture; “policy.pdf” is none.");
    byte[] large = new byte[DocumentFiles.MOST_BYTES + 1];
    System.arraycopy(PDF, 0, large, 0, PDF.length);
    assertThat(controller.upload(form, fields, List.of(file("policy.pdf", large))).asString())
        .contains("File must be at most 10 MB.");
    Response filed = controller.upload(form, fields, List.of(file("polÿicy 77.exe", PDF)));
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(303);

    String shown = controller.get(list).asString();
    String address = shown.replaceAll("(?s).*\"(/compliance-files/[0-9a-f]{64})\".*", "$1");
    assertThat(controller.get(Visitor.leadsTo(filed)).asString()).contains(address);
    Response paper = company.visitor(Role.PILOT).get(address);
    assertThat(paper.asByteArray()).isEqualTo(PDF);
    assertThat(paper.contentType()).isEqualTo("application/pdf");
    assertThat(paper.header("Content-Disposition"))
        .startsWith("attachment; filename=\"pol")
        .endsWith(".pdf\"");
    assertThat(paper.header("X-Content-Type-Options")).isEqualTo("nosniff");
    assertThat(upkeep.company().visitor(Role.OWNER).get(address).statusCode())
        .as("another operator's owner")
        .isEqualTo(404);

    UUID record = upkeep.item(owner, insurance, aircraft, today).lastDone().complianceId();
    String correction = "/compliances/" + record + "/correction";
    Map<String, Object> corrected = fields(controller, correction, "/correction");
    corrected.put("reason", "Another day");
    corrected.put("on", today.minusDays(29).toString());
    assertThat(controller.upload(correction, corrected, List.of()).statusCode()).isEqualTo(303);
    assertThat(controller.get(list).asString()).as("the paper stays with it").contains(address);
    record = upkeep.item(owner, insurance, aircraft, today).lastDone().complianceId();
    correction = "/compliances/" + record + "/correction";
    corrected = fields(controller, correction, "/correction");
    corrected.put("reason", "Seal and stamp too");
    assertThat(
            controller
                .upload(
                    correction,
                    corrected,
                    List.of(file("seal", JPEG), file("stamp", "%PDF-1.7 stamp")))
                .statusCode())
        .isEqualTo(303);
    record = upkeep.item(owner, insurance, aircraft, today).lastDone().complianceId();
    assertThat(complianceRecords.one(owner, record).papers())
        .as("what was filed before stays")
        .extracting(Paper::name)
        .hasSize(3)
        .endsWith("seal", "stamp");
    assertThat(controller.get(list).asString()).contains(">seal<").contains(">stamp<");
    assertThat(inLedger(record)).contains("\"more_files\":[");
    correction = "/compliances/" + record + "/correction";
    corrected = fields(controller, correction, "/correction");
    corrected.put("reason", "Scanned anew");
    corrected.remove(DocumentFiles.STAYS);
    assertThat(controller.upload(correction, corrected, List.of(file("x", PNG))).statusCode())
        .isEqualTo(303);
    record = upkeep.item(owner, insurance, aircraft, today).lastDone().complianceId();
    assertThat(complianceRecords.one(owner, record).papers())
        .as("what is unticked goes")
        .hasSize(1);
    String sha = complianceRecords.one(owner, record).papers().get(0).sha256();
    Response picture = controller.get("/compliance-files/" + sha);
    assertThat(picture.contentType()).isEqualTo("image/png");
    assertThat(picture.header("Content-Disposition")).isEqualTo("inline; filename=\"x.png\"");
    assertThat(inLedger(record)).contains("\"file_sha256\":\"" + sha + "\"");
  }

  private static Map<String, Object> fields(Visitor visitor, String page, String sends) {
    return new HashMap<>(visitor.filled(page, sends, Map.of()).fields());
  }

  private static Chosen file(String name, String text) {
    return file(name, text.getBytes(ISO_8859_1));
  }

  private static Chosen file(String name, byte[] bytes) {
    return new Chosen(DocumentFiles.FIELD, name, bytes, "application/octet-stream");
  }

  private static String inLedger(UUID record) throws Exception {
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement();
        var found =
            statement.executeQuery(
                "select json from ledger_entry where record_id = '" + record + "'")) {
      found.next();
      return found.getString(1);
    }
  }
}
