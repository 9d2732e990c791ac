package trestle.records;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.ledger.Act;
import trestle.ledger.Heads;
import trestle.ledger.Line;
import trestle.ledger.Lines;
import trestle.ledger.PrintedProof;
import trestle.ledger.Proofs;
import trestle.ledger.SignedHead;
import trestle.ledger.SomeProof;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.web.Walls;

/** Checking a printed proof with and without signing in, and what anybody may learn from it. */
@QuarkusTest
class ProofPagesTest {
  @Inject Operators operators;
  @Inject Members members;
  @Inject Walls walls;
  @Inject Heads heads;
  @Inject Proofs proofs;
  @Inject Lines lines;
  @Inject Verify verify;
  @Inject InstantSource clock;

  private static Company company;
  private static Company other;

  @BeforeEach
  void found() {
    if (company == null) {
      company = Company.founded("proof-pages", operators, members);
      other = Company.founded("proof-others", operators, members);
    }
  }

  private record Printed(PrintedProof proof, Line line) {}

  private Printed printed(Company of, long seq) throws Exception {
    Viewer viewer = of.viewer(Role.OWNER);
    return walls.reading(
        viewer,
        () -> {
          SignedHead head =
              heads.signed(new Act(viewer.operatorId(), viewer.personId(), clock.instant()));
          return new Printed(
              new PrintedProof(head, proofs.inclusion(viewer.operatorId(), seq, head.size())),
              lines.at(viewer.operatorId(), seq).orElseThrow());
        });
  }

  @Test
  void anybodyChecksAProofAndItsRecord() throws Exception {
    Printed printed = printed(company, 3);
    Visitor anybody = Visitor.atTheDoor();
    String scanned = anybody.get("/P/" + printed.proof().text()).asString();
    assertThat(scanned)
        .contains("<h2 id=\"result\">It holds</h2>", "is number 3 of the ")
        .contains("still agrees", "for that, paste the record’s text too")
        .doesNotContain("proof-pages", "membership", "owner");
    String pasted = printed.proof().text().replaceAll("(.{50})", "$1\n") + " (end)";
    String right =
        anybody
            .fillIn("/proof", "/proof", Map.of("proof", pasted, "record", printed.line().json()))
            .asString();
    assertThat(right).contains("It holds", "is the one that was hashed");
    String another = printed.line().json().replace("\"version\":1", "\"version\":2");
    String wrong =
        anybody.fillIn("/proof", "/proof", Map.of("proof", pasted, "record", another)).asString();
    assertThat(wrong).contains("It does not hold", "is not the one that was hashed");
    String head = anybody.get("/P/" + printed.proof().head().text()).asString();
    assertThat(head).contains("It holds", "was signed with the key below", "still agrees");
  }

  @Test
  void whatDoesNotHoldIsSaid() throws Exception {
    String text = printed(company, 2).proof().text();
    Visitor anybody = Visitor.atTheDoor();
    String[] fields = text.split("\\.");
    fields[7] = "3";
    assertThat(anybody.get("/P/" + String.join(".", fields)).asString())
        .contains("It does not hold", "do not lead to the root that was signed")
        .doesNotContain("What was checked");
    assertThat(anybody.get("/P/" + text.substring(0, 200)).statusCode()).isEqualTo(422);
    Response nothing = anybody.fillIn("/proof", "/proof", Map.of("proof", "hello"));
    assertThat(nothing.statusCode()).isEqualTo(422);
    assertThat(nothing.asString()).contains("neither a printed proof nor a signed head");
    // Of nobody's ledger: it holds by itself, and nothing is said of any ledger here.
    assertThat(anybody.get("/P/" + SomeProof.text()).asString())
        .contains("It holds", "this installation keeps none that this key signs");
  }

  /** A key that is not the operator's tells nothing about the operator's ledger. */
  @Test
  void aForgedProofLearnsNothing() throws Exception {
    String mine = printed(other, 2).proof().text();
    String operator = company.operatorId().toString().toUpperCase(java.util.Locale.ROOT);
    String forged = mine.replaceFirst("1\\.[0-9A-F-]{36}", "1." + operator);
    assertThat(Visitor.atTheDoor().get("/P/" + forged).asString())
        .contains("It does not hold", "The signature does not belong")
        .doesNotContain("The ledger kept here");
  }

  @Test
  void membersVerifyAndHoldProofsOfOthersAgainstTheirLedger() throws Exception {
    Visitor auditor = company.visitor(Role.AUDITOR);
    String page = "/verification";
    Response done =
        auditor.fillIn(page, page, Map.of("outside", printed(company, 2).proof().text()));
    assertThat(done.statusCode()).isEqualTo(303);
    assertThat(auditor.get(page).asString()).contains("All records are as they were filed.");
    Response strange =
        auditor.fillIn(page, page, Map.of("outside", printed(other, 2).proof().text()));
    assertThat(strange.statusCode()).isEqualTo(422);
    assertThat(strange.asString()).contains("is of another operator’s ledger.");
    assertThat(auditor.get("/fleet").asString()).doesNotContain("The last verification");
    assertThat(company.visitor(Role.PILOT).get(page).statusCode()).isEqualTo(403);
    assertThat(other.visitor(Role.OWNER).get(page).asString())
        .contains("This ledger has not been verified yet.");
  }
}
