package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import trestle.house.Routes.Route;
import trestle.house.Yard.Rows;
import trestle.people.Visitor;
import trestle.server.StatementCount;
import trestle.server.TestDatabase;

/**
 * Every page over HTTP, of an operator with a row or two of everything and again with several times
 * as many: it takes no more SQL statements, with nothing kept in memory and with all of it.
 */
@QuarkusTest
class StatementsByPageTest {
  private static final int TIMES = 4;

  @Inject Yard yard;

  @Test
  void moreRowsTakeNoMoreStatements() throws Exception {
    Rows rows = yard.founded("few", "QX-FEW");
    Visitor owner = rows.owner();
    List<String> paths = paths(rows);
    Map<String, List<String>> few = statements(owner, rows, paths);
    yard.more(rows, TIMES);
    Map<String, List<String>> many = statements(owner, rows, paths);
    List<String> grown = new ArrayList<>();
    many.forEach(
        (page, statements) -> {
          if (statements.size() > few.get(page).size()) {
            grown.add(page + " takes " + statements.size() + " instead of " + few.get(page).size());
            grown.addAll(more(few.get(page), statements));
          }
        });
    assertThat(grown).isEmpty();
  }

  private static List<String> paths(Rows rows) {
    return Routes.inCode().stream()
        .filter(route -> route.method().equals("GET"))
        .filter(route -> route.whoMay().contains("owner") || route.words().contains(Routes.ANYONE))
        .filter(route -> !Set.of("/assets/{path}").contains(route.path()))
        // A file of everything that is read a portion at a time.
        .filter(route -> !route.path().endsWith(".zip"))
        .filter(StatementsByPageTest::isOfRows)
        .map(route -> Addresses.of(route, rows))
        .distinct()
        .toList();
  }

  private static boolean isOfRows(Route route) {
    return Addresses.nameRow(route) || !route.path().contains("{");
  }

  private Map<String, List<String>> statements(Visitor owner, Rows rows, List<String> paths)
      throws Exception {
    Map<String, List<String>> found = new TreeMap<>();
    for (String path : paths) {
      forget(rows);
      found.put(path + " (cold)", asked(owner, path));
      found.put(path + " (warm)", asked(owner, path));
    }
    return found;
  }

  /** Without what a correction's trial writes of gaps: one statement where there are any. */
  private static List<String> asked(Visitor owner, String path) throws Exception {
    return StatementCount.of(() -> owner.get(path)).stream()
        .filter(statement -> !statement.startsWith("insert into flight_break "))
        .toList();
  }

  /** As after a filing: what was kept in memory of the operator's aircraft no longer counts. */
  private static void forget(Rows rows) throws Exception {
    try (Connection connection = TestDatabase.asSuperuser();
        var statement =
            connection.prepareStatement(
                "update aircraft_revision set revision = revision + 1 where operator_id = ?")) {
      statement.setObject(1, rows.company().operatorId());
      statement.execute();
    }
  }

  /** The statements that came more often than before. */
  private static List<String> more(List<String> before, List<String> now) {
    List<String> rest = new ArrayList<>(now);
    before.forEach(rest::remove);
    return rest.stream().distinct().map(sql -> "  " + sql).toList();
  }
}
