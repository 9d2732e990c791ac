package trestle.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManagerFactory;
import jakarta.persistence.Table;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
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

  @Inject EntityManagerFactory entities;

  @Test
  void everyColumnOfEveryFiledTableIsInTheLedgersJson() throws SQLException {
    Map<String, Class<? extends Filed>> kinds = kinds();
    assertThat(kinds.keySet()).containsExactlyElementsOf(asked(FILED));
    for (var kind : kinds.entrySet()) {
      List<String> columns =
          asked(
              "select column_name from information_schema.columns where table_schema = 'public'"
                  + " and table_name = '"
                  + kind.getKey()
                  + "'");
      assertThat(new TreeSet<>(FiledJson.columns(kind.getValue())))
          .as(kind.getKey())
          .isEqualTo(new TreeSet<>(columns));
    }
  }

  @Test
  void everyKindHasAWordOfItsOwn() {
    List<String> words =
        kinds().values().stream().map(kind -> kind.getAnnotation(Kind.class).value()).toList();
    assertThat(words).doesNotHaveDuplicates();
  }

  @Test
  void everyFiledTableRefusesChangeRemovalAndTruncation() throws SQLException {
    for (String table : asked(FILED)) {
      assertThat(
              asked(
                  "select tgname from pg_trigger where not tgisinternal and tgenabled = 'O'"
                      + " and tgrelid = '"
                      + table
                      + "'::regclass order by 1"))
          .as(table)
          .contains("refuse_change", "refuse_truncate");
    }
  }

  @Test
  void everyKeyOfAFiledTableHasTheOperatorInIt() throws SQLException {
    for (String table : asked(FILED)) {
      assertThat(
              asked(
                  "select pg_get_constraintdef(oid) from pg_constraint where conrelid = '"
                      + table
                      + "'::regclass and contype in ('p', 'u')"))
          .as(table)
          .hasSizeGreaterThanOrEqualTo(4)
          .allMatch(key -> key.contains("(operator_id, "));
      assertThat(
              asked(
                  "select pg_get_constraintdef(oid) from pg_constraint where conrelid = '"
                      + table
                      + "'::regclass and contype = 'f'"))
          .as(table)
          .allMatch(key -> key.contains("(operator_id") || key.contains("REFERENCES person("));
    }
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
