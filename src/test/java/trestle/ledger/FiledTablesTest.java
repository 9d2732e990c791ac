package trestle.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManagerFactory;
import jakarta.persistence.Table;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import trestle.server.TestDatabase;

/** Every filed table there is keeps the rules of filed tables, whoever adds one. */
@QuarkusTest
class FiledTablesTest {
  private static final String FILED =
      "select table_name from information_schema.columns where table_schema = 'public'"
          + " and column_name = 'ledger_seq' and table_name <> 'filed_row' order by 1";

  /** The one that crosses operators: which ones a person belongs to; to be read only. */
  private static final String OWN_MEMBERSHIPS =
      " and not (polname = 'own_memberships' and polcmd = 'r')";

  @Inject EntityManagerFactory entities;

  @Test
  void everyColumnOfEveryFiledTableIsInTheLedgersJson() throws SQLException {
    Map<String, Class<? extends Filed>> kinds = kinds();
    assertThat(kinds.keySet()).containsExactlyElementsOf(asked(FILED));
    for (var kind : kinds.entrySet()) {
      List<String> columns =
          asked(
              "select column_name from information_schema.columns where table_schema = 'public'"
                  + " and is_generated = 'NEVER' and table_name = '"
                  + kind.getKey()
                  + "'");
      assertThat(new TreeSet<>(FiledJson.columns(kind.getValue())))
          .as(kind.getKey())
          .isEqualTo(new TreeSet<>(columns));
    }
  }

  /** From the version on in which {@link FiledJson} writes the ledger's word once more. */
  @Test
  void aColumnCalledKindHidesTheLedgersWordInNoNewLine() {
    assertThat(kinds().values().stream().filter(FiledJson::hidesKind))
        .isNotEmpty()
        .allMatch(
            kind -> kind.getAnnotation(Kind.class).version() >= FiledJson.LEDGER_KIND_SINCE,
            "has a version from which on its lines say the ledger's kind");
    assertThat(kinds().values().stream().flatMap(kind -> FiledJson.columns(kind).stream()))
        .doesNotContain(FiledJson.LEDGER_KIND, "version");
  }

  /** Whoever adds a column that names files says in which table they are. */
  @Test
  void everyColumnThatNamesKeptFilesSaysWhere() throws SQLException {
    List<String> said = new ArrayList<>();
    kinds()
        .forEach(
            (table, kind) ->
                FiledJson.fields(kind).stream()
                    .filter(field -> field.isAnnotationPresent(NamesFiles.class))
                    .forEach(field -> said.add(table + "." + FiledJson.column(field))));
    assertThat(said)
        .containsExactlyInAnyOrderElementsOf(
            asked(
                "select table_name || '.' || column_name from information_schema.columns c"
                    + " where table_schema = 'public' and (column_name in ('photo', 'photos', 'more_files')"
                    + " or column_name = 'file_sha256' and table_name <> 'taken_pack')"));
  }

  @Test
  void everyKindHasAWordOfItsOwn() {
    List<String> words =
        kinds().values().stream().map(kind -> kind.getAnnotation(Kind.class).value()).toList();
    assertThat(words).doesNotHaveDuplicates();
  }

  @Test
  void everyFiledTableHasAllThatFiledTablesHave() throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser()) {
      for (String table : asked(FILED)) {
        assertThat(faults(connection, table)).as(table).isEmpty();
      }
    }
  }

  /** Each thing that a table can lack is found, on a sample that lacks it. */
  @Test
  void whatATableLacksIsFound() throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser()) {
      connection.setAutoCommit(false);
      try (var statement = connection.createStatement()) {
        statement.execute("create table sample (like filed_row including all, about uuid)");
        assertThat(faults(connection, "sample")).hasSize(10);
        statement.execute("call as_filed('sample')");
        assertThat(faults(connection, "sample")).isEmpty();
        Map<String, String> breaking = new LinkedHashMap<>();
        breaking.put("alter table sample disable trigger refuse_change", "refuses no change");
        breaking.put("drop trigger refuse_truncate on sample", "refuses no truncation");
        breaking.put("alter table sample no force row level security", "has no walls");
        breaking.put("drop policy own_operator on sample", "has no policy");
        breaking.put("create policy all_of_it on sample using (true)", "has another policy");
        breaking.put("alter table sample add unique (about)", "has a key without the operator");
        breaking.put("create unique index on sample (about)", "has a key without the operator");
        breaking.put(
            "alter table sample add foreign key (ledger_seq, id) references sample_other",
            "refers to something without the operator");
        breaking.put(
            "alter table sample drop constraint sample_operator_id_ledger_seq_fkey",
            "has no line in the ledger");
        breaking.put(
            "alter table sample drop constraint sample_operator_id_corrects_key",
            "has no (operator_id, corrects)");
        statement.execute("create table sample_other (seq bigint, id uuid, primary key (seq, id))");
        for (var each : breaking.entrySet()) {
          var unbroken = connection.setSavepoint();
          statement.execute(each.getKey());
          assertThat(faults(connection, "sample")).as(each.getKey()).contains(each.getValue());
          connection.rollback(unbroken);
        }
      } finally {
        connection.rollback();
      }
    }
  }

  /** What a filed table lacks, in words. */
  private static List<String> faults(Connection connection, String table) throws SQLException {
    String of = "'" + table + "'::regclass";
    Map<String, String> needed = new LinkedHashMap<>();
    String trigger = "select 1 from pg_trigger where tgenabled = 'O' and tgrelid = " + of;
    // Bits of tgtype: for each row 1, before 2, delete 8, update 16, truncate 32.
    needed.put(
        "refuses no change",
        trigger + " and tgfoid = 'refuse_change'::regproc and (tgtype & 27) = 27");
    needed.put(
        "refuses no truncation",
        trigger + " and tgfoid = 'refuse_change'::regproc and (tgtype & 34) = 34");
    needed.put(
        "has no walls",
        "select 1 from pg_class where oid = " + of + " and relrowsecurity and relforcerowsecurity");
    String policy =
        "(polname = 'own_operator' and polcmd = '*' and polpermissive"
            + " and pg_get_expr(polqual, polrelid) = '(operator_id = current_operator())'"
            + " and pg_get_expr(polwithcheck, polrelid) = '(operator_id = current_operator())')";
    needed.put(
        "has no policy", "select 1 from pg_policy where polrelid = " + of + " and " + policy);
    needed.put(
        "has another policy",
        "select 1 where not exists (select 1 from pg_policy where polrelid = "
            + of
            + " and not "
            + policy
            + (table.equals("membership") ? OWN_MEMBERSHIPS : "")
            + ")");
    String constraint = "select 1 from pg_constraint where conrelid = " + of;
    needed.put(
        "has no line in the ledger",
        constraint
            + " and pg_get_constraintdef(oid) like 'FOREIGN KEY (operator_id, ledger_seq)"
            + " REFERENCES ledger_entry%'");
    needed.put(
        "corrects nothing of its own",
        constraint
            + " and pg_get_constraintdef(oid) = 'FOREIGN KEY (operator_id, corrects) REFERENCES "
            + table
            + "(operator_id, id)'");
    for (String key : List.of("id", "ledger_seq", "corrects", "form_key")) {
      needed.put(
          "has no (operator_id, " + key + ")",
          constraint
              + " and contype in ('p', 'u') and pg_get_constraintdef(oid) like '%(operator_id, "
              + key
              + ")'");
    }
    needed.put(
        "has a key without the operator",
        "select 1 where not exists (select 1 from pg_index where indisunique and indrelid = "
            + of
            + " and pg_get_indexdef(indexrelid) not like '%(operator_id, %')");
    needed.put(
        "refers to something without the operator",
        "select 1 where not exists ("
            + constraint
            + " and contype = 'f' and pg_get_constraintdef(oid) not like '%(operator_id%'"
            + " and pg_get_constraintdef(oid) not like '%REFERENCES person(%')");
    List<String> faults = new ArrayList<>();
    try (var statement = connection.createStatement()) {
      for (var each : needed.entrySet()) {
        try (ResultSet rows = statement.executeQuery(each.getValue())) {
          if (!rows.next()) {
            faults.add(each.getKey());
          }
        }
      }
    }
    return faults;
  }

  @Test
  void everyTableOfAnOperatorForcesRowLevelSecurity() throws SQLException {
    assertThat(
            asked(
                "select c.relname from pg_class c join pg_attribute a on a.attrelid = c.oid"
                    + " where c.relkind in ('r', 'p') and c.relnamespace = 'public'::regnamespace"
                    + " and a.attname = 'operator_id' and c.relname <> 'session'"
                    + " and not (c.relrowsecurity and c.relforcerowsecurity)"))
        .isEmpty();
  }

  private Map<String, Class<? extends Filed>> kinds() {
    Map<String, Class<? extends Filed>> kinds = new TreeMap<>();
    entities.getMetamodel().getEntities().stream()
        .map(entity -> entity.getJavaType())
        .filter(Filed.class::isAssignableFrom)
        .forEach(type -> kinds.put(table(type), type.asSubclass(Filed.class)));
    return kinds;
  }

  private static String table(Class<?> type) {
    Table named = type.getAnnotation(Table.class);
    return named != null && !named.name().isEmpty()
        ? named.name()
        : type.getSimpleName().replaceAll("([a-z])([A-Z])", "$1_$2").toLowerCase();
  }

  private static List<String> asked(String query) throws SQLException {
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(query)) {
      List<String> answers = new ArrayList<>();
      while (rows.next()) {
        answers.add(rows.getString(1));
      }
      return answers;
    }
  }
}
