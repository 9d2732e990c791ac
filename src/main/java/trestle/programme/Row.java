package trestle.programme;

import java.time.LocalDate;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import trestle.reckoning.Calendar;
import trestle.reckoning.Counter;
import trestle.reckoning.Reading;
import trestle.reckoning.Scale;
import trestle.reckoning.Usage;
import trestle.web.JsonInput;

/**
 * A reading as it was sent: a baseline, a row of the history, an origin, or what the counters say
 * now.
 *
 * @param on null where it is absent or wrong
 * @param totals those that are right
 */
record Row(JsonInput input, LocalDate on, Map<Counter, Long> totals) {

  private static final Set<String> MEMBERS = Set.of("on", "usage");

  /** Reads {@code {"on": …, "usage": {…}}}. */
  static Row read(JsonInput input) {
    if (!input.object(MEMBERS, "a reading")) {
      return new Row(input, null, Map.of());
    }
    LocalDate on = input.has("on") ? input.member("on").parsed(DateText::parse) : null;
    return new Row(input, on, totals(input.member("usage")));
  }

  /** The totals of a usage object, which may be absent (null). */
  static Map<Counter, Long> totals(JsonInput usage) {
    Map<Counter, Long> totals = new TreeMap<>();
    if (usage == null || !usage.object()) {
      return totals;
    }
    for (JsonInput member : usage.members()) {
      Counter counter = counter(member);
      Long total = counter == null ? null : member.parsed(counter.unit()::parse);
      if (total != null) {
        totals.put(counter, total);
      }
    }
    return totals;
  }

  static Counter counter(JsonInput member) {
    if (!Counter.isName(member.name())) {
      member.refuse(
          "a counter's name must be 1 to 40 small letters, digits and hyphens, and start with a"
              + " letter");
      return null;
    }
    return new Counter(member.name());
  }

  Reading reading() {
    return new Reading(on, Usage.ofUnits(totals));
  }

  /**
   * Says that the row lacks its quantity on a scale, unless it stands there (rightly or wrongly).
   */
  void require(Scale scale) {
    if (!input.isObject()) {
      return;
    }
    if (scale == Calendar.DAYS) {
      if (!input.has("on")) {
        input.missing("on", "is missing: a limit by calendar counts from it");
      }
      return;
    }
    String counter = ((Counter) scale).name();
    requireTotal(input, counter, "is missing: a limit counts in it");
  }

  /** Says that a total is missing from the usage of an object, unless it stands there. */
  static void requireTotal(JsonInput holder, String counter, String reason) {
    JsonInput usage = holder.member("usage");
    if (usage == null) {
      holder.missing("usage", counter, reason);
    } else if (usage.isObject() && !usage.has(counter)) {
      usage.missing(counter, reason);
    }
  }
}
