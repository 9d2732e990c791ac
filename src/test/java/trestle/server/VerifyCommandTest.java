package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.ledger.SomeProof;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.records.Verifications;
import trestle.web.Role;

/** Whoever asks for a verification and mistypes is not told that all is well. */
@QuarkusTest
class VerifyCommandTest {
  @Inject VerifyCommand verify;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Verifications verifications;

  private Company mine;
  private Company other;

  @BeforeEach
  void twoOperators() {
    mine = Company.founded("verified-" + UUID.randomUUID(), operators, members);
    other = Company.founded("beside-" + UUID.randomUUID(), operators, members);
  }

  @Test
  void oneOperatorIsVerifiedByNameAndById() {
    for (String each : List.of(mine.name(), mine.operatorId().toString())) {
      assertThat(run(0, "--operator=" + each, "--text-only", head(mine)))
          .contains(mine.name() + ": ", "It is as it was filed.")
          .doesNotContain(other.name());
    }
  }

  @Test
  void anOperatorThatThereIsNotIsSaid() {
    assertThat(run(2, "--operator=" + mine.name() + "x"))
        .contains("There is no operator \"" + mine.name() + "x\" here.");
    assertThat(run(2, "--operator=" + mine.name(), "--operator="))
        .contains("There is no operator \"\" here.")
        .doesNotContain("as it was filed");
  }

  @Test
  void anOptionThatThereIsNotIsSaid() {
    for (String word : List.of("--operater=" + mine.name(), "--text", "--operator")) {
      assertThat(run(2, "--operator=" + mine.name(), word))
          .contains("There is no option \"" + word + "\". Say: verify")
          .doesNotContain("as it was filed");
    }
  }

  @Test
  void aTextOfALedgerThatWasNotVerifiedIsNotPassedOver() {
    assertThat(run(1, "--operator=" + mine.name(), head(other)))
        .contains("a text is of operator " + other.operatorId())
        .contains("It is as it was filed.");
    assertThat(run(1, "--operator=" + mine.name(), SomeProof.text()))
        .contains("No ledger of operator 01890a5d-ac96-774b-bcce-b302099a8057 is kept here.");
  }

  private String head(Company company) {
    return verifications.head(company.viewer(Role.OWNER)).text();
  }

  private String run(int code, String... arguments) {
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    assertThat(verify.run(List.of(arguments), new PrintStream(said, true))).isEqualTo(code);
    return said.toString();
  }
}
