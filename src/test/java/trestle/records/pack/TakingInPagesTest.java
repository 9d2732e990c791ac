package trestle.records.pack;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.ledger.Refiling;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.web.Role;

/** A record handed over and taken in, through the pages alone. */
@QuarkusTest
class TakingInPagesTest {
  @Inject Seller seller;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Refiling refiling;

  @Test
  void fromOneOperatorsPageToTheOthers() throws Exception {
    Seller.Sold sold = seller.sold();
    String aircraft = "/aircraft/" + sold.aircraft();
    Visitor auditor = sold.company().visitor(Role.AUDITOR);
    String engine = "/components/" + sold.engine();
    assertThat(auditor.get(engine).asString()).contains(engine + "/record-pack");
    assertThat(auditor.get(aircraft + "/record-pack").asString())
        .contains("Download the record pack", "Those flights are in the pack too");
    Response zip = auditor.get(aircraft + "/record-pack.zip");
    assertThat(zip.statusCode()).isEqualTo(200);
    assertThat(zip.contentType()).isEqualTo("application/zip");
    assertThat(zip.header("Content-Disposition")).contains(sold.registration() + "-record.zip");
    byte[] bytes = zip.asByteArray();
    assertThat(zip.header("Content-Length")).isEqualTo("" + bytes.length);

    Company buyer =
        Company.founded(
            "pages-" + UUID.randomUUID().toString().substring(0, 8), operators, members);
    Visitor controller = buyer.visitor(Role.CONTROLLER);
    Response refused = sent(controller, java.util.Arrays.copyOf(bytes, bytes.length / 2));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString())
        .contains("cut short or damaged", "<title>Error: ", "href=\"#pack\"");
    assertThat(controller.fillIn("/record-packs", "/record-packs", Map.of()).asString())
        .contains("Record pack is needed");

    Response sent = sent(controller, bytes);
    assertThat(sent.statusCode()).isEqualTo(303);
    String preview = Visitor.leadsTo(sent);
    String shown = controller.get(preview).asString();
    assertThat(shown)
        .contains("Nothing is filed yet", sold.company().name(), "Journey log entry", "Signature");
    assertThat(controller.get("/fleet").asString()).doesNotContain(sold.registration());
    assertThat(sold.company().visitor(Role.OWNER).get(preview).statusCode()).isEqualTo(404);

    Response taken = controller.fillIn(preview, "/taking-in", Map.of());
    assertThat(taken.statusCode()).isEqualTo(303);
    String page = Visitor.leadsTo(taken);
    assertThat(controller.get(page + "?kind=signature").asString())
        .contains("filed here as copied", "As they came", "signs_kind");
    assertThat(controller.get("/fleet").asString())
        .contains(sold.registration())
        .doesNotContain("QX-PK7");
    for (String of :
        new String[] {
          "",
          "/status",
          "/flights",
          "/defects",
          "/directives",
          "/configuration",
          "/documents",
          "/programme",
          "/record-pack"
        }) {
      assertThat(controller.get(aircraft + of).statusCode()).as(of).isEqualTo(200);
    }
    assertThat(controller.get("/components/" + sold.magneto()).asString()).contains("left magneto");
  }

  private static Response sent(Visitor visitor, byte[] bytes) {
    var form = visitor.filled("/record-packs", "/record-packs", Map.of());
    return visitor.upload(
        form.action(),
        form.fields(),
        List.of(new Visitor.Chosen("pack", "record.zip", bytes, "application/zip")));
  }

  /** docs/record-pack.md lists what is filed anew; every one is a kind that there is. */
  @Test
  void theDocumentListsWhatIsFiled() throws Exception {
    String document = Files.readString(Path.of("docs/record-pack.md"));
    String list = document.substring(document.indexOf("### Filed anew"));
    for (String kind : Fates.FILED) {
      assertThat(list).contains("`" + kind + "`");
      assertThat(refiling.version(kind)).as(kind).isPresent();
    }
    assertThat(list.split("`").length / 2).isEqualTo(Fates.FILED.size());
    for (String name :
        new String[] {
          PackNames.README,
          PackNames.SUMMARY,
          PackNames.MANIFEST,
          PackNames.MANIFEST_SIGNATURE,
          PackNames.PEOPLE,
          PackNames.AIRCRAFT,
          PackNames.COMPONENTS,
          PackNames.REQUIREMENTS,
          PackNames.TOTALS,
          PackNames.ATTACHMENTS,
          PackNames.HEAD,
          PackNames.LINES,
          PackNames.PROOFS
        }) {
      assertThat(document).contains("`" + name + "`");
      assertThat(PackNames.isName(name)).isTrue();
    }
  }
}
