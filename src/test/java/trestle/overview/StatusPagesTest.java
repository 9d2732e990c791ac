package trestle.overview;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.io.IOException;
import java.time.Instant;
import java.util.UUID;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import trestle.fleet.Configurations;
import trestle.fleet.Hangar;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * The status report on screen, on paper and as a file. That it holds total time, life-limited
 * parts, time since overhaul, inspection and directive status, and major alterations with their
 * forms: 14 CFR 91.417(a)(2)(i) to (vi), read in the facts file.
 */
@QuarkusTest
class StatusPagesTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T12:00:00Z");

  private static final String[] ASKED = {
    "Total times",
    "Life-limited parts",
    "Time since overhaul",
    "Inspection status",
    "Directive status",
    "Major modifications and repairs",
    "Overruns"
  };

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject Configurations configurations;

  @Test
  void screenPaperAndFileSayTheSame() throws IOException {
    Company company = Company.founded("status-" + UUID.randomUUID(), operators, members);
    Viewer owner = company.viewer(Role.OWNER);
    UUID aircraft = hangar.single(owner, "QX-STA", BEGINNING);
    configurations.state(
        owner,
        aircraft,
        new Configurations.NewModification(
            null,
            "FLOATS-2",
            "Floats <2> & \"wires\"",
            false,
            true,
            "Approval 12",
            "Form 3 of 1999",
            "32",
            "",
            true,
            BEGINNING,
            null,
            null));
    Visitor auditor = company.visitor(Role.AUDITOR);
    String page = auditor.get("/aircraft/" + aircraft + "/status").asString();
    assertThat(page)
        .contains(ASKED)
        .contains("Floats &lt;2&gt; &amp; &quot;wires&quot;, major mod");

    Response csv = auditor.get("/aircraft/" + aircraft + "/status.csv");
    assertThat(csv.asString()).contains(ASKED).contains("\"Floats <2> & \"\"wires\"\", major");
    assertThat(csv.header("Content-Disposition")).contains("QX-STA-status.csv");

    byte[] pdf = auditor.get("/aircraft/" + aircraft + "/status.pdf").asByteArray();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      assertThat(new PDFTextStripper().getText(document))
          .contains(ASKED)
          .contains("Floats <2> & \"wires\"")
          .contains("Form 3 of 1999")
          .contains("Page 1 of");
      for (PDPage each : document.getPages()) {
        for (COSName font : each.getResources().getFontNames()) {
          assertThat(each.getResources().getFont(font).isEmbedded()).isTrue();
        }
      }
    }
  }

  /** What was stated later is not in the report of an earlier day. */
  @Test
  void aReportOfAPastDayIsWithoutWhatCameLater() {
    Company company = Company.founded("status-" + UUID.randomUUID(), operators, members);
    Viewer owner = company.viewer(Role.OWNER);
    UUID aircraft = hangar.single(owner, "QX-STB", BEGINNING);
    configurations.state(
        owner,
        aircraft,
        new Configurations.NewModification(
            null,
            "SKIS-1",
            "Skis",
            false,
            true,
            "",
            "Form 9",
            "",
            "",
            true,
            Instant.parse("2025-06-01T12:00:00Z"),
            null,
            null));
    Visitor owners = company.visitor(Role.OWNER);
    String path = "/aircraft/" + aircraft + "/status";
    assertThat(owners.get(path).asString()).contains("SKIS-1");
    assertThat(owners.get(path + "?as-at=2025-03-01").asString()).doesNotContain("SKIS-1");
  }
}
