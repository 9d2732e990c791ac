package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import trestle.reckoning.Rule;

/** The program and the naive oracle answer alike, member by member, through the JSON layer. */
class OracleTest {

  private static final int CASES = 5_000;

  @Test
  void answerAlike() {
    long seed = new Random().nextLong();
    RandomCases cases = new RandomCases(seed);
    Set<String> states = new HashSet<>();
    int overruns = 0;
    for (int i = 0; i < CASES; i++) {
      JsonNode body = cases.next();
      Asked asked = Asked.of(body.toString());
      assertThat(asked.answer())
          .as("case %d of seed %d: %s", i, seed, body)
          .isEqualTo(Asked.tree(NaiveOracle.answer(body).toString()));
      states.add(asked.answer().get("state").asText());
      overruns += asked.answer().toString().contains("\"overrun\":true") ? 1 : 0;
    }
    assertThat(states)
        .as("cases of every kind came up")
        .containsExactlyInAnyOrder("ahead", "soon", "due", "in-tolerance", "overdue", "done");
    assertThat(overruns).isGreaterThan(CASES / 20);
  }

  @Test
  void rulesSurviveBeingKept() {
    RandomCases cases = new RandomCases(42);
    for (int i = 0; i < 1_000; i++) {
      Rule rule = RuleJson.parse(cases.next().get("rule").toString());
      String text = RuleJson.text(rule);
      assertThat(RuleJson.parse(text)).isEqualTo(rule);
      assertThat(RuleJson.text(RuleJson.parse(text))).isEqualTo(text);
    }
  }
}
