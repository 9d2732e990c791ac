package trestle.programme;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import trestle.formats.Json;
import trestle.reckoning.Counter;
import trestle.reckoning.History;
import trestle.reckoning.Limit;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reading;
import trestle.reckoning.Reckoner;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Rule;
import trestle.reckoning.Situation;
import trestle.reckoning.Usage;
import trestle.reckoning.Utilisation;
import trestle.web.FieldError;
import trestle.web.JsonInput;

/** The stateless check: one case, or a list of cases, in; what each reckons to, out. */
final class ReckoningJson {

  static final int MOST_CASES = 1_000;

  private static final Set<String> MEMBERS =
      Set.of("asOf", "usage", "rule", "baseline", "history", "origins", "utilisation");

  private ReckoningJson() {}

  /** The answer to a body, or null where something is wrong, which is then listed. */
  static Json answer(Json body, List<FieldError> errors) {
    JsonInput input = JsonInput.root(body, errors);
    if (!input.isList()) {
      Case one = read(input);
      return errors.isEmpty() ? one.answer() : null;
    }
    List<JsonInput> items = input.items();
    if (items.size() > MOST_CASES) {
      input.refuse("has " + items.size() + " cases, at most 1,000 go into one request");
      return null;
    }
    List<Case> cases = items.stream().map(ReckoningJson::read).toList();
    return errors.isEmpty() ? new Json.Arr(cases.stream().map(Case::answer).toList()) : null;
  }

  private record Case(Rule rule, History history, Situation now) {
    Json answer() {
      return json(Reckoner.reckon(rule, history, now));
    }
  }

  /** The case; null where something is wrong. */
  private static Case read(JsonInput input) {
    int before = input.problems();
    if (!input.object(MEMBERS, "a case")) {
      return null;
    }
    LocalDate asOf = asOf(input);
    Map<Counter, Long> usage = Row.totals(input.member("usage"));
    RuleJson.Read rule = rule(input);
    Row baseline = input.has("baseline") ? Row.read(input.member("baseline")) : null;
    List<Row> history = history(input);
    Map<String, Row> origins = origins(input);
    Utilisation utilisation = utilisation(input);
    if (history != null) {
      new CaseChecks(input, asOf, usage, baseline, history, origins).check(rule);
    }
    if (input.problems() > before) {
      return null;
    }
    Map<String, Reading> named = new HashMap<>();
    origins.forEach((name, row) -> named.put(name, row.reading()));
    return new Case(
        rule.rule(),
        new History(
            baseline == null ? null : baseline.reading(),
            history.stream().map(Row::reading).toList(),
            named,
            List.of()),
        new Situation(asOf, Usage.ofUnits(usage), utilisation));
  }

  private static LocalDate asOf(JsonInput input) {
    if (!input.has("asOf")) {
      input.missing("asOf", "is missing: the day for which to reckon");
      return null;
    }
    return input.member("asOf").parsed(DateText::parse);
  }

  private static RuleJson.Read rule(JsonInput input) {
    if (!input.has("rule")) {
      input.missing("rule", "is missing");
      return new RuleJson.Read(null, List.of(), null, false);
    }
    return RuleJson.read(input.member("rule"));
  }

  /** The rows; null where there is no list of them to go by. */
  private static List<Row> history(JsonInput input) {
    if (!input.has("history")) {
      return List.of();
    }
    List<JsonInput> items = input.member("history").items();
    return items == null ? null : items.stream().map(Row::read).toList();
  }

  private static Map<String, Row> origins(JsonInput input) {
    Map<String, Row> origins = new TreeMap<>();
    if (!input.has("origins") || !input.member("origins").object()) {
      return origins;
    }
    for (JsonInput member : input.member("origins").members()) {
      if (!Counter.isName(member.name()) || member.name().equals(Limit.LAST_DONE)) {
        member.refuse(
            "an origin's name must be 1 to 40 small letters, digits and hyphens, start with a"
                + " letter, and not be last-done");
      }
      origins.put(member.name(), Row.read(member));
    }
    return origins;
  }

  private static Utilisation utilisation(JsonInput input) {
    Map<Counter, Long> rates = new TreeMap<>();
    if (input.has("utilisation") && input.member("utilisation").object()) {
      for (JsonInput member : input.member("utilisation").members()) {
        Counter counter = Row.counter(member);
        Long rate = counter == null ? null : member.parsed(Utilisation::parseRate);
        if (rate != null) {
          rates.put(counter, rate);
        }
      }
    }
    return Utilisation.ofTenThousandths(rates);
  }

  static Json json(Reckoning reckoning) {
    List<Json> path = new ArrayList<>();
    reckoning.controlling().forEach(index -> path.add(Json.of(index)));
    return whole(Json.object(), reckoning)
        .put("controlling", new Json.Arr(path))
        .put(
            "limits", new Json.Arr(reckoning.entries().stream().map(ReckoningJson::entry).toList()))
        .build();
  }

  private static Json entry(Outcome outcome) {
    return outcome instanceof Reckoning group ? json(group) : limit((LimitReckoning) outcome);
  }

  private static Json.Builder whole(Json.Builder json, Reckoning reckoning) {
    return json.put("state", reckoning.state().word())
        .put("spent", reckoning.spent())
        .put("projectedOn", date(reckoning.projectedOn()));
  }

  private static Json limit(LimitReckoning limit) {
    Json.Builder json = Json.object();
    if (limit.isByCalendar()) {
      json.put("calendar", true)
          .put("dueOn", date(limit.dueOn()))
          .put("remainingDays", limit.daysLeft());
    } else {
      json.put("counter", limit.counter().name())
          .put("dueAt", limit.dueAt().toString())
          .put("remaining", limit.left().toString());
    }
    json.put("state", limit.state().word()).put("spent", limit.spent());
    if (limit.limit() instanceof Limit.Every every && every.fromLastDone()) {
      json.put("overrun", limit.overrun());
    }
    return json.put("projectedOn", date(limit.projectedOn())).build();
  }

  private static String date(LocalDate date) {
    return date == null ? null : date.toString();
  }
}
