package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.house.Tampering.Column;
import trestle.house.Tampering.Undo;
import trestle.house.Yard.Rows;
import trestle.ledger.Act;
import trestle.ledger.Heads;
import trestle.ledger.Outside;
import trestle.ledger.SignedHead;
import trestle.ledger.verify.Verdict;
import trestle.ledger.verify.Verifier;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.web.Walls;

/**
 * What somebody with the database's superuser does to filed records, and how verifying names it. A
 * sample of the columns here; every one with -Dtrestle.attacks=all (docs/ledger.md).
 */
@QuarkusTest
class AttacksTest {
  private static final boolean ALL = "all".equals(System.getProperty("trestle.attacks"));

  @Inject Yard yard;
  @Inject Verifier verifier;
  @Inject Heads heads;
  @Inject Outside outside;
  @Inject Walls walls;
  @Inject InstantSource clock;

  private static Rows rows;
  private UUID operator;

  @BeforeEach
  void found() {
    if (rows == null) {
      rows = yard.founded("attacked", "QX-ATT");
    }
    operator = rows.company().operatorId();
  }

  @Test
  void whatNobodyTouchedIsSound() {
    assertThat(verifier.verify(operator, false).trouble()).isEmpty();
    assertThat(verifier.verify(operator, true).trouble()).isEmpty();
  }

  @Test
  void aChangedColumnOfAnyTableIsNamed() throws Exception {
    List<String> unseen = new ArrayList<>();
    List<String> refused = new ArrayList<>();
    int changed = 0;
    try (Tampering hand = new Tampering(operator)) {
      if (ALL) {
        hand.dropChecks();
      }
      List<String> tables = new ArrayList<>(hand.tables());
      assertThat(tables).hasSizeGreaterThan(35);
      tables.add("ledger_entry");
      for (String table : tables) {
        for (Column column : chosen(hand.columns(table))) {
          String seq = sequence(hand, table);
          Optional<Undo> undo = hand.change(column);
          if (undo.isEmpty()) {
            refused.add(table + "." + column.name());
            continue;
          }
          changed++;
          Verdict verdict = verifier.verify(operator, false);
          undo.get().close();
          if (!verdict.trouble().map(t -> names(t.sentence(), seq)).orElse(false)) {
            unseen.add(table + "." + column.name() + ": " + verdict.trouble());
          }
        }
      }
    }
    System.out.printf("%d columns changed, refused by constraints: %s%n", changed, refused);
    assertThat(unseen).isEmpty();
    assertThat(verifier.verify(operator, false).trouble()).isEmpty();
  }

  /** The sequence of the row that {@link Tampering#change} takes. */
  private static String sequence(Tampering hand, String table) throws Exception {
    String column = table.equals("ledger_entry") ? "seq" : "ledger_seq";
    return hand.asked(
            "select %s from %s where ctid = '%s'".formatted(column, table, hand.newest(table)))
        .get(0);
  }

  private static boolean names(String sentence, String seq) {
    return sentence.matches(".*\\b" + seq + "\\b.*");
  }

  private static List<Column> chosen(List<Column> columns) {
    int any = new Random(columns.get(0).table().hashCode()).nextInt(columns.size());
    return ALL ? columns : List.of(columns.get(any));
  }

  @Test
  void oneChangedHourIsNamed() throws Exception {
    try (Tampering hand = new Tampering(operator);
        Undo undo =
            hand.tried(
                    "flight", hand.newest("flight"), "landing_at", "landing_at + interval '1 hour'")
                .orElseThrow()) {
      assertThat(verifier.verify(operator, false).trouble().orElseThrow().sentence())
          .matches(
              "Record \\d+ \\(journey-log-entry\\): landing_at is \"\\S+Z\" in the table,"
                  + " \"\\S+Z\" in the ledger\\. The line's text is as it was hashed, so the row"
                  + " was changed\\.");
      assertThat(verifier.verify(operator, true).trouble()).isEmpty();
    }
  }

  @Test
  void aFileThatIsAnotherOrGoneIsNamedByItsRecord() throws Exception {
    Map<String, String> kinds =
        Map.of(
            "attachment", "defect", "compliance_file", "compliance", "directive_file", "directive");
    try (Tampering hand = new Tampering(operator)) {
      for (var each : kinds.entrySet()) {
        String last =
            "update %s set bytes = set_byte(bytes, length(bytes) - 1, get_byte(bytes, length(bytes) - 1) # 1) where operator_id = '%s'"
                .formatted(each.getKey(), operator);
        hand.run(last);
        assertThat(sentence())
            .matches(
                "Record \\d+ \\("
                    + each.getValue()
                    + "\\): the file that it names \\([0-9a-f]{12}…\\) is not the one that was"
                    + " filed: its bytes have another hash\\.");
        assertThat(verifier.verify(operator, true).trouble()).isEmpty();
        hand.run(last);
        try (Undo undo = hand.remove(each.getKey(), "true")) {
          assertThat(sentence())
              .matches(
                  "Record \\d+ \\("
                      + each.getValue()
                      + "\\) names a file \\([0-9a-f]{12}…\\) that is not kept any more\\.");
        }
      }
    }
    assertThat(verifier.verify(operator, false).trouble()).isEmpty();
  }

  /** Its row is no filed row, but the revisions say it too. */
  @Test
  void aRequirementGivenToAnotherIsNamed() throws Exception {
    try (Tampering hand = new Tampering(operator)) {
      String other =
          "update requirement set subject = case subject when 'engine' then 'propeller'"
              + " when 'propeller' then 'engine' when 'aircraft' then 'engine' else subject end"
              + " where operator_id = '"
              + operator
              + "' and subject = ";
      hand.run(other + "'aircraft'");
      assertThat(sentence())
          .matches(
              "Record \\d+ \\(requirement-revision\\): the row of the table requirement that it is"
                  + " about \\(\\S+\\) does not say what it said when this was filed\\.");
      hand.run(
          "update requirement set subject = 'aircraft' where operator_id = '%s' and subject = 'engine' and id in (select requirement_id from requirement_revision where of_subject = 'aircraft')"
              .formatted(operator));
    }
    assertThat(verifier.verify(operator, false).trouble()).isEmpty();
  }

  @Test
  void rowsAndLinesRemovedAreNamed() throws Exception {
    try (Tampering hand = new Tampering(operator)) {
      for (String table : ALL ? hand.tables() : List.of("flight", "membership", "compliance")) {
        String seq = sequence(hand, table);
        try (Undo undo = hand.remove(table, "t.ledger_seq = " + seq)) {
          assertThat(sentence()).startsWith("Record " + seq + " (").contains("not in its table");
        }
        try (Undo undo = hand.remove("ledger_entry", "t.seq = " + seq)) {
          assertThat(sentence()).isEqualTo("Line " + seq + " is missing from the ledger.");
        }
      }
      String last = sequence(hand, "ledger_entry");
      try (Undo undo = hand.remove("ledger_entry", "t.seq = " + last)) {
        assertThat(sentence()).isEqualTo("Line " + last + " is missing from the ledger.");
        assertThat(verifier.verify(operator, true).isSound()).isFalse();
      }
    }
    assertThat(verifier.verify(operator, false).trouble()).isEmpty();
  }

  @Test
  void rowsAndLinesAddedAreNamed() throws Exception {
    try (Tampering hand = new Tampering(operator)) {
      for (String seq : List.of("999999", "0")) {
        hand.run(
            ("create temp table more as select * from flight where ctid = '%s';"
                    + "update more set id = gen_random_uuid(), ledger_seq = %s, form_key = null, corrects = null;"
                    + "insert into flight select * from more")
                .formatted(hand.newest("flight"), seq));
        assertThat(sentence()).startsWith("A row of the table flight (").contains("record " + seq);
        hand.run("delete from flight where ledger_seq = " + seq + "; drop table more");
      }
      long size = verifier.verify(operator, false).size();
      hand.run(
          ("create temp table more as select * from ledger_entry where ctid = '%s';"
                  + "update more set seq = seq + 1, record_id = gen_random_uuid();"
                  + "insert into ledger_entry select * from more")
              .formatted(hand.newest("ledger_entry")));
      assertThat(sentence())
          .isEqualTo(
              "The ledger's head counts %d lines, but there are lines up to %d."
                  .formatted(size, size + 1));
      hand.run(
          "delete from ledger_entry where operator_id = '%s' and seq > %d"
              .formatted(operator, size));
    }
    assertThat(verifier.verify(operator, false).trouble()).isEmpty();
  }

  @Test
  void rowsAndLinesSwappedAreNamed() throws Exception {
    try (Tampering hand = new Tampering(operator)) {
      List<String> two =
          hand.asked(
              "select ledger_seq from membership where operator_id = '%s' order by 1 limit 2"
                  .formatted(operator));
      swap(hand, "membership", "ledger_seq", two);
      assertThat(sentence()).startsWith("Record " + two.get(0) + " (membership): ");
      swap(hand, "membership", "ledger_seq", two);
      swap(hand, "ledger_entry", "seq", two);
      assertThat(sentence()).startsWith("Record " + two.get(0) + " (membership): ");
      swap(hand, "ledger_entry", "seq", two);
    }
    assertThat(verifier.verify(operator, false).trouble()).isEmpty();
  }

  private void swap(Tampering hand, String table, String column, List<String> two)
      throws Exception {
    String set = "update %s set %s = %s where operator_id = '%s' and %s = %s";
    hand.run(set.formatted(table, column, "888888", operator, column, two.get(0)));
    hand.run(set.formatted(table, column, two.get(0), operator, column, two.get(1)));
    hand.run(set.formatted(table, column, two.get(1), operator, column, "888888"));
  }

  /** Last of all: what was so done can't be told from within, only by a head that others keep. */
  @Test
  void aLedgerCutOrComputedAnewIsCaughtByAHeadFromOutside() throws Exception {
    Rows other = yard.founded("anew", "QX-NEW");
    operator = other.company().operatorId();
    Viewer viewer = other.company().viewer(Role.OWNER);
    SignedHead kept =
        walls.reading(
            viewer, () -> heads.signed(new Act(operator, viewer.personId(), clock.instant())));
    assertThat(troubles(viewer, kept)).isEmpty();
    try (Tampering hand = new Tampering(operator)) {
      String seq = sequence(hand, "flight");
      hand.run(
          "update flight set landings = landings + 7 where operator_id = '%s' and ledger_seq = %s"
              .formatted(operator, seq));
      hand.run(
          "update ledger_entry set json = regexp_replace(json, '\"landings\":1,', '\"landings\":8,') where operator_id = '%s' and seq = %s"
              .formatted(operator, seq));
      hand.computeAnew();
      assertThat(verifier.verify(operator, false).trouble()).isEmpty();
      assertThat(troubles(viewer, kept))
          .containsExactly(
              "The first %d lines of the ledger here lead to another root: they are not those that were signed."
                  .formatted(kept.size()));
      for (String table : hand.tables()) {
        hand.run(
            "delete from %s where operator_id = '%s' and ledger_seq > 20"
                .formatted(table, operator));
      }
      hand.run(
          "delete from ledger_entry where operator_id = '%s' and seq > 20".formatted(operator));
      hand.computeAnew();
      assertThat(verifier.verify(operator, false).trouble()).isEmpty();
      assertThat(troubles(viewer, kept))
          .containsExactly(
              "It counts %d lines, but the ledger here has 20: its end is missing."
                  .formatted(kept.size()));
    }
    assertThat(troubles(rows.company().viewer(Role.OWNER), kept))
        .containsExactly("It is of another operator’s ledger.");
  }

  private List<String> troubles(Viewer viewer, SignedHead head) throws Exception {
    return walls.reading(viewer, () -> outside.troubles(viewer.operatorId(), head));
  }

  private String sentence() {
    return verifier.verify(operator, false).trouble().orElseThrow().sentence();
  }
}
