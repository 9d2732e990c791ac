package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import trestle.house.Yard.Rows;
import trestle.people.Visitor;
import trestle.people.Visitor.Filled;
import trestle.server.BrokenCall;
import trestle.server.TestDatabase;

/**
 * Each form of each page is sent, and at its n-th call the database's session is ended under it:
 * the answer is a page that says so, and nothing of it is filed. Sent again it is filed, and sent
 * once more it is not filed twice. Some calls of some forms here; for every one of all of them:
 * {@code -Dtrestle.faults.step=1 -Dtrestle.faults.forms=1}.
 */
@QuarkusTest
class EveryCallFailsTest {
  private static final int STEP = Integer.getInteger("trestle.faults.step", 11);
  private static final int FORMS = Integer.getInteger("trestle.faults.forms", 8);

  /** It files nothing: whoever asks twice is told twice what stands. */
  private static final Set<String> ANEW = Set.of("/verification");

  @Inject Yard yard;

  private int struck;
  private final List<String> wrong = new ArrayList<>();

  @Test
  void allOrNothingAtEveryCallAndOnceHoweverOftenItIsSent() throws Exception {
    Rows rows = yard.founded("failing-calls", "QX-FLC");
    Visitor owner = rows.owner();
    String state = stateQuery();
    int turn = 0;
    for (Errand errand : Errand.of(rows)) {
      Filled form = owner.filled(errand.page(), errand.sends(), errand.fields());
      if (turn++ % FORMS == 0) {
        run(owner, errand, form, state, 1 + turn / FORMS % STEP);
      } else {
        // The next ones need what it files.
        owner.send(form);
      }
    }
    System.out.printf("%,d calls failed in %d forms%n", struck, (turn + FORMS - 1) / FORMS);
    assertThat(wrong).isEmpty();
  }

  private void run(Visitor owner, Errand errand, Filled form, String state, int first)
      throws SQLException {
    String before = asked(state);
    Response answer = null;
    for (int call = first; answer == null; call += STEP) {
      Response one = sentWithBrokenCall(owner, form, call);
      if (!BrokenCall.hasHappened() || one.statusCode() < 400) {
        // It has fewer calls than that; or what failed was not needed, or came after the commit.
        answer = one;
      } else {
        struck++;
        String what = "%s, call %d".formatted(errand.route(), call);
        if (one.statusCode() != 503 || !one.asString().contains("be reached just now")) {
          wrong.add(what + " answers " + one.statusCode());
        }
        String after = asked(state);
        if (!after.equals(before)) {
          wrong.add(what + " was filed in part: " + differing(before, after));
          before = after;
        }
      }
    }
    if (answer.statusCode() >= 400) {
      wrong.add("%s, sent again: %d".formatted(errand.route(), answer.statusCode()));
    }
    String once = asked(state);
    owner.send(form);
    String twice = asked(state);
    if (!twice.equals(once) && !ANEW.contains(errand.route())) {
      wrong.add(
          "%s is filed twice when sent twice: %s"
              .formatted(errand.route(), differing(once, twice)));
    }
  }

  private static List<String> differing(String before, String after) {
    List<String> counts = new ArrayList<>(List.of(after.split(", ")));
    counts.removeAll(List.of(before.split(", ")));
    return counts;
  }

  private static Response sentWithBrokenCall(Visitor owner, Filled form, int call) {
    BrokenCall.at(call);
    try {
      return owner.send(form);
    } finally {
      BrokenCall.never();
    }
  }

  /** How many rows each table has, and how far ledgers and numberings are. */
  private static String stateQuery() throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser()) {
      String counts =
          list(
                  connection,
                  "select relname from pg_class where relkind = 'r'"
                      + " and relnamespace = 'public'::regnamespace"
                      + " and relname not in ('session', 'sign_in_brake') order by 1")
              .stream()
              .map(table -> "'%1$s ' || (select count(*) from %1$s)".formatted(table))
              .collect(Collectors.joining(" || ', ' || "));
      return "select 'lines ' || (select sum(size) from ledger_head) || ', numbers ' || (select sum(last)"
          + " from numbering) || ', ' || "
          + counts;
    }
  }

  private static String asked(String query) throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser()) {
      return list(connection, query).get(0);
    }
  }

  private static List<String> list(Connection connection, String query) throws SQLException {
    List<String> answers = new ArrayList<>();
    try (var statement = connection.createStatement();
        var rows = statement.executeQuery(query)) {
      while (rows.next()) {
        answers.add(rows.getString(1));
      }
    }
    return answers;
  }
}
