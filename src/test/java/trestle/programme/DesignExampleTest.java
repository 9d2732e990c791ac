package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The example of the stateless check as its description gives it, member by member. */
class DesignExampleTest {

  private static final String BODY =
      """
      { "asOf": "2026-03-31",
        "usage": { "hours": "1234.5", "landings": "2210" },
        "rule": { "combine": "first", "limits": [
            { "counter": "hours", "every": "100", "soon": "10", "tolerance": "10", "late": "keep-schedule" },
            { "calendar": true, "every": "P12M", "ends": "month-end", "soon": "P30D" } ] },
        "baseline": { "on": "2025-03-11", "usage": { "hours": "1106.0", "landings": "1990" } },
        "history": [],
        "origins": { "overhaul": { "on": "2020-06-01", "usage": { "hours": "400" } } },
        "utilisation": { "hours": "0.8" } }
      """;

  private static final String ANSWER =
      """
      { "state": "overdue", "spent": true, "projectedOn": "2026-03-31", "controlling": [0],
        "limits": [
          { "counter": "hours", "dueAt": "1206", "remaining": "-28.5", "state": "overdue", "spent": true, "overrun": false, "projectedOn": "2026-03-31" },
          { "calendar": true, "dueOn": "2026-03-31", "remainingDays": 0, "state": "due", "spent": false, "overrun": false, "projectedOn": "2026-03-31" } ] }
      """;

  @Test
  void answersAsDescribed() {
    assertThat(Asked.of(BODY)).isEqualTo(new Asked(200, Asked.tree(ANSWER)));
  }

  @Test
  void answersAListWithAList() {
    assertThat(Asked.of("[" + BODY + "," + BODY + "]").answer())
        .isEqualTo(Asked.tree("[" + ANSWER + "," + ANSWER + "]"));
    assertThat(Asked.of("[]")).isEqualTo(new Asked(200, Asked.tree("[]")));
  }
}
