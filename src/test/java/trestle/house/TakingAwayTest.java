package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import trestle.house.Yard.Rows;
import trestle.people.Company;
import trestle.people.Visitor;

/**
 * Records that were filed by mistake are taken away through their one page, whatever their kind.
 */
@QuarkusTest
class TakingAwayTest {
  private static final Pattern LINE =
      Pattern.compile("<a href=\"(/records/[^\"]+)\">\\d+<span class=\"unseen\">, ([^<]+)</span>");

  @Inject Yard yard;

  @Test
  void everyKindThatIsTakenAwayIsStruckThroughAndCountsNoMore() {
    Rows rows = yard.founded("skua", "QX-SKU");
    Visitor owner = rows.owner();
    Errand.of(rows).forEach(errand -> owner.fillIn(errand.page(), errand.sends(), errand.fields()));
    Map<String, String> offered = offered(owner);
    assertThat(offered.keySet())
        .contains(
            "Acceptance",
            "Pre-flight inspection",
            "Search for directives",
            "Alternative method",
            "Report of an occurrence",
            "Extension of a deferral",
            "Line left open",
            "Independent inspection",
            "Check flight",
            "Pilot's own work",
            "Licence",
            "Equipment",
            "Explanation of a gap or dispute",
            "Stated rate of use",
            "Programme followed",
            "Exclusion of a requirement",
            "Assessment",
            "Triage",
            "Judgement whether a defect came back",
            "Limit of a reading",
            "Whether pilots may work on it");
    Map<String, String> answers = new TreeMap<>();
    offered.forEach((kind, record) -> answers.put(kind, takenAway(owner, record)));
    assertThat(answers.values()).as(answers.toString()).containsOnly("taken away");
  }

  private static String takenAway(Visitor owner, String record) {
    String form = record + "/taking-away";
    Map<String, String> typed = new HashMap<>(Map.of("reason", "Of another aircraft"));
    Response asked = owner.get(form);
    boolean signed = asked.asString().contains("name=\"password\"");
    if (signed) {
      Map<String, String> wrong = new HashMap<>(typed);
      wrong.put("licence", Yard.LICENCE);
      wrong.put("password", "not this one");
      assertThat(owner.fillIn(form, "/taking-away", wrong).statusCode()).isEqualTo(422);
      typed.put("licence", Yard.LICENCE);
      typed.put("password", Company.PASSWORD);
    }
    Response filed = owner.fillIn(form, "/taking-away", typed);
    if (filed.statusCode() != 303) {
      return filed.asString().replaceAll("(?s).*class=\"summary\"|</div>.*", "");
    }
    String page = owner.get(record).asString();
    assertThat(page).contains("This record was put right", "Of another aircraft", "<s>");
    if (signed) {
      assertThat(page).contains("I take this record away");
    }
    assertThat(owner.post(form, typed).statusCode()).as("twice").isEqualTo(409);
    assertThat(owner.get(form).asString()).contains("It was put right already");
    return "taken away";
  }

  /** The newest record of each kind whose page leads to being taken away. */
  private static Map<String, String> offered(Visitor owner) {
    Map<String, String> offered = new LinkedHashMap<>();
    Set<String> seen = new HashSet<>();
    String next = "/history";
    while (next != null) {
      String page = owner.get(next).asString();
      Matcher lines = LINE.matcher(page);
      while (lines.find()) {
        String kind = lines.group(2).replace("&#39;", "'");
        if (seen.add(kind) && owner.get(lines.group(1)).asString().contains("/taking-away\"")) {
          offered.put(kind, lines.group(1));
        }
      }
      Matcher earlier = Pattern.compile("href=\"([^\"]+)\">Earlier records").matcher(page);
      next = earlier.find() ? earlier.group(1).replace("&amp;", "&") : null;
    }
    return offered;
  }
}
