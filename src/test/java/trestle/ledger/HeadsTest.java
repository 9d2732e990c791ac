package trestle.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.Test;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.server.TestDatabase;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.web.Walls;

/** Heads and proofs of a real ledger, with and without the kept subtrees. */
@QuarkusTest
class HeadsTest {
  private static final Instant AT = Instant.parse("2026-03-12T09:30:00Z");

  @Inject Operators operators;
  @Inject Members members;
  @Inject Walls walls;
  @Inject Ledger ledger;
  @Inject Heads heads;
  @Inject Proofs proofs;
  @Inject Lines lines;
  @Inject EntityManager entities;

  @Test
  void aNewOperatorsLedgerBeginsWithItsKey() {
    Company company = Company.founded("heads-first", operators, members);
    SignedHead head = reading(company, () -> heads.signed(act(company)));
    assertThat(head.verify()).isTrue();
    assertThat(SignedHead.parse(head.text()).text()).isEqualTo(head.text());
    Line first = reading(company, () -> lines.at(company.operatorId(), 1).orElseThrow());
    assertThat(first.kind()).isEqualTo("ledger-key");
    assertThat(reading(company, () -> heads.isKeyOf(company.operatorId(), head.publicKey())))
        .isTrue();
    assertThat(reading(company, () -> heads.isKeyOf(company.operatorId(), Ed25519.make().shown())))
        .isFalse();
  }

  @Test
  void aLedgerWhoseKeyWasLostGetsAnotherAndOldHeadsHold() throws Exception {
    Company company = Company.founded("heads-lost", operators, members);
    SignedHead before = reading(company, () -> heads.signed(act(company)));
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement()) {
      statement.execute(
          "update ledger_key_seal set sealed = sealed || '\\x00'::bytea where operator_id = '"
              + company.operatorId()
              + "'");
    }
    SignedHead after = reading(company, () -> heads.signed(act(company)));
    assertThat(after.verify()).isTrue();
    assertThat(after.publicKey()).isNotEqualTo(before.publicKey());
    assertThat(after.size()).isEqualTo(before.size() + 1);
    assertThat(before.verify()).isTrue();
    assertThat(reading(company, () -> heads.isKeyOf(company.operatorId(), before.publicKey())))
        .isTrue();
    Consistency grown =
        reading(
            company, () -> proofs.consistency(company.operatorId(), before.size(), after.size()));
    assertThat(grown.holds(before.root(), after.root())).isTrue();
  }

  @Test
  void everyLineOfALargerLedgerIsProvenAlsoWithoutTheKeptSubtrees() throws Exception {
    Company company = Company.founded("heads-many", operators, members);
    UUID operator = company.operatorId();
    file(company, 700);
    SignedHead head = reading(company, () -> heads.signed(act(company)));
    assertThat(head.size()).isGreaterThan(700);
    assertThat(kept(operator)).isEqualTo(3); // two of 256 and one of 512
    allHold(company, head);
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement()) {
      statement.execute("delete from ledger_subtree where operator_id = '" + operator + "'");
    }
    allHold(company, head);
    assertThatThrownBy(() -> reading(company, () -> proofs.inclusion(operator, 5, head.size() + 1)))
        .isInstanceOf(NoSuchElementException.class);
  }

  private void allHold(Company company, SignedHead head) {
    UUID operator = company.operatorId();
    List<Long> seqs = new ArrayList<>();
    for (long seq = 1; seq <= head.size(); seq++) {
      seqs.add(seq);
    }
    List<Inclusion> all = reading(company, () -> proofs.inclusions(operator, seqs, head.size()));
    for (Inclusion each : all) {
      assertThat(each.root()).as("%s", each.seq()).isEqualTo(head.root());
    }
    for (long size : List.of(1L, 2L, 3L, 255L, 256L, 257L, 511L, 600L, head.size())) {
      byte[] root = reading(company, () -> proofs.root(operator, size));
      Consistency grown = reading(company, () -> proofs.consistency(operator, size, head.size()));
      assertThat(grown.holds(root, head.root())).as("%s", size).isTrue();
    }
    Inclusion one = reading(company, () -> proofs.inclusion(operator, 300, 301));
    assertThat(one.root()).isEqualTo(reading(company, () -> proofs.root(operator, 301)));
  }

  @Test
  void linesAreFoundByAircraftAndByRecord() {
    Company company = Company.founded("heads-lines", operators, members);
    UUID operator = company.operatorId();
    Line second = reading(company, () -> lines.at(operator, 2).orElseThrow());
    assertThat(reading(company, () -> lines.ofRecord(operator, second.recordId())))
        .hasValueSatisfying(line -> assertThat(line.seq()).isEqualTo(2));
    assertThat(
            reading(
                company, () -> lines.ofRecords(operator, Set.of(second.recordId()), 1).toList()))
        .isEmpty();
    long size = reading(company, () -> ledger.head(operator).size());
    assertThat(reading(company, () -> lines.all(operator, 0, size).toList())).hasSize((int) size);
    assertThat(reading(company, () -> lines.ofAircraft(operator, UUID.randomUUID(), size).toList()))
        .isEmpty();
  }

  private void file(Company company, int count) throws Exception {
    walls.filing(
        company.viewer(Role.OWNER),
        () -> {
          List<LedgerKey> rows = new ArrayList<>();
          for (int i = 0; i < count; i++) {
            LedgerKey row = new LedgerKey();
            row.publicKey = trestle.formats.Base32.of(Ed25519.make().shown());
            row.happened(AT, company.viewer(Role.OWNER).dateOf(AT));
            rows.add(row);
          }
          ledger.file(act(company), rows);
          return null;
        });
  }

  private static int kept(UUID operator) throws Exception {
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement();
        var rows =
            statement.executeQuery(
                "select count(*) from ledger_subtree where operator_id = '" + operator + "'")) {
      rows.next();
      return rows.getInt(1);
    }
  }

  private static Act act(Company company) {
    Viewer owner = company.viewer(Role.OWNER);
    return new Act(owner.operatorId(), owner.personId(), AT);
  }

  private <T> T reading(Company company, Callable<T> work) {
    try {
      return walls.reading(company.viewer(Role.OWNER), work);
    } catch (RuntimeException e) {
      throw e;
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }
}
