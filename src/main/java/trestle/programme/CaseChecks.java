package trestle.programme;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Scale;
import trestle.web.JsonInput;

/** What must hold between the parts of one case: the order of its rows, and all that is needed. */
record CaseChecks(
    JsonInput input,
    LocalDate asOf,
    Map<Counter, Long> usage,
    Row baseline,
    List<Row> history,
    Map<String, Row> origins) {

  void check(RuleJson.Read rule) {
    checkOrder();
    List<Need> needs = needs(rule);
    Set<Scale> now = new HashSet<>();
    Set<Scale> sinceDone = new HashSet<>();
    Set<String> named = new HashSet<>();
    for (Need need : needs) {
      if (need.scale() instanceof Counter counter && now.add(counter)) {
        Row.requireTotal(input, counter.name(), "is missing: a limit counts in it");
      }
      if (Limit.LAST_DONE.equals(need.from())) {
        if (sinceDone.add(need.scale())) {
          rows().forEach(row -> row.require(need.scale()));
        }
      } else if (need.from() != null) {
        checkOrigin(need, named);
      }
    }
    if (!sinceDone.isEmpty() && rows().isEmpty()) {
      input.missing("baseline", "is missing: a limit counts from last-done, and it was never done");
    }
  }

  /** What the reckoned group needs. */
  private List<Need> needs(RuleJson.Read rule) {
    if (history.isEmpty()) {
      return rule.initial() == null ? rule.group() : rule.initial();
    }
    return rule.once() ? List.of() : rule.group();
  }

  private List<Row> rows() {
    List<Row> rows = new ArrayList<>(history);
    if (baseline != null) {
      rows.add(0, baseline);
    }
    return rows;
  }

  private void checkOrigin(Need need, Set<String> named) {
    if (input.has("origins") && !input.member("origins").isObject()) {
      return;
    }
    Row origin = origins.get(need.from());
    if (origin == null) {
      need.where().refuse("is not one of the origins");
    } else if (named.add(need.from() + " " + need.scale())) {
      origin.require(need.scale());
    }
  }

  private void checkOrder() {
    LocalDate latest = null;
    Map<Counter, Long> totals = new HashMap<>();
    for (Row row : rows()) {
      if (row.on() != null) {
        checkDate(row, latest);
        latest = row.on();
      }
      checkFall(row.input(), row.totals(), totals);
    }
    checkFall(input, usage, totals);
  }

  private void checkDate(Row row, LocalDate before) {
    if (before != null && row.on().isBefore(before)) {
      row.input().member("on").refuse("is before the row before it (" + before + ")");
    }
    if (asOf != null && row.on().isAfter(asOf)) {
      row.input().member("on").refuse("is after asOf");
    }
  }

  private static void checkFall(
      JsonInput holder, Map<Counter, Long> totals, Map<Counter, Long> before) {
    totals.forEach(
        (counter, total) -> {
          Long last = before.put(counter, total);
          if (last != null && total < last) {
            holder
                .member("usage")
                .member(counter.name())
                .refuse("is less than before (" + counter.unit().show(last) + ")");
          }
        });
  }
}
