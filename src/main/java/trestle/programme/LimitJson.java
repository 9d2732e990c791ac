package trestle.programme;

import static java.util.stream.Collectors.toMap;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import trestle.formats.Json;
import trestle.reckoning.Calendar;
import trestle.reckoning.Counter;
import trestle.reckoning.Distance;
import trestle.reckoning.Entry;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Scale;
import trestle.web.JsonInput;

/** One limit of a rule as JSON. */
final class LimitJson {

  private static final Set<String> MEMBERS =
      Set.of(
          "counter",
          "calendar",
          "every",
          "ends",
          "at",
          "on",
          "from",
          "soon",
          "tolerance",
          "late",
          "window");
  private static final Map<String, Limit.Late> LATE =
      Arrays.stream(Limit.Late.values()).collect(toMap(Limit.Late::word, Function.identity()));
  private static final Map<String, Limit.Ends> ENDS =
      Arrays.stream(Limit.Ends.values()).collect(toMap(Limit.Ends::word, Function.identity()));

  private final boolean kept;

  /**
   * @param kept whether the rule is one that is kept, which may name other requirements
   */
  LimitJson(boolean kept) {
    this.kept = kept;
  }

  /** The limit, or null where something is wrong with it; what it needs is added all the same. */
  Limit read(JsonInput input, List<Need> needs) {
    if (kept && input.has("with")) {
      return with(input);
    }
    if (!input.object(MEMBERS, "a limit")) {
      return null;
    }
    int before = input.problems();
    Scale scale = scale(input);
    if (input.has("counter") != input.has("calendar")) {
      foreign(input, input.has("counter"));
    }
    String point = input.has("on") && !input.has("counter") ? "on" : "at";
    if (input.has(point) && !input.has("every")) {
      Limit.Fixed fixed = fixed(input, scale, point, needs);
      return input.problems() > before ? null : fixed;
    }
    if (input.has(point) && (point.equals("on") || !input.has("calendar"))) {
      input.member(point).refuse("a limit has either every or " + point);
    }
    return every(input, scale, needs, before);
  }

  static Json json(Entry entry) {
    Json.Builder json = Json.object();
    if (entry instanceof Limit.With with) {
      return json.put("with", with.requirement()).build();
    }
    Limit.Measured limit = (Limit.Measured) entry;
    if (limit.scale() instanceof Counter counter) {
      json.put("counter", counter.name());
    } else {
      json.put("calendar", true);
    }
    if (limit instanceof Limit.Fixed fixed) {
      writePoint(fixed, json);
    } else {
      writeEvery((Limit.Every) limit, json);
    }
    put(json, "soon", limit.soon());
    put(json, "tolerance", limit.tolerance());
    if (limit instanceof Limit.Every every) {
      put(json, "window", every.window());
    }
    return json.build();
  }

  private static void writePoint(Limit.Fixed limit, Json.Builder json) {
    if (limit.scale() instanceof Counter counter) {
      json.put("at", counter.unit().show(limit.point()));
    } else {
      json.put("on", LocalDate.ofEpochDay(limit.point()).toString());
    }
  }

  private static void writeEvery(Limit.Every limit, Json.Builder json) {
    json.put("every", limit.every().toString());
    if (limit.ends() != Limit.Ends.ANNIVERSARY) {
      json.put("ends", limit.ends().word());
    }
    if (!limit.fromLastDone()) {
      json.put("from", limit.from());
    }
    if (limit.late() != Limit.Late.RESTART) {
      json.put("late", limit.late().word());
    }
  }

  private static void put(Json.Builder json, String name, Distance distance) {
    if (distance != null) {
      json.put(name, distance.toString());
    }
  }

  private static Limit with(JsonInput input) {
    String requirement =
        input.object(Set.of("with"), "a limit with other work")
            ? input.member("with").text()
            : null;
    if (requirement == null) {
      return null;
    }
    if (requirement.isBlank()) {
      input.member("with").refuse("must name a requirement");
      return null;
    }
    return new Limit.With(requirement);
  }

  private static Scale scale(JsonInput input) {
    boolean byCounter = input.has("counter");
    if (!byCounter && !input.has("calendar")) {
      input.missing("counter", "is missing: a limit has either counter or calendar");
      return null;
    }
    Counter counter = byCounter ? input.member("counter").parsed(Counter::parse) : null;
    if (!input.has("calendar")) {
      return counter;
    }
    JsonInput calendar = input.member("calendar");
    if (byCounter) {
      calendar.refuse("a limit has either counter or calendar");
      return null;
    }
    Boolean value = calendar.flag();
    if (Boolean.FALSE.equals(value)) {
      calendar.refuse("must be true");
    }
    return Boolean.TRUE.equals(value) ? Calendar.DAYS : null;
  }

  private static void foreign(JsonInput input, boolean byUse) {
    for (String name : byUse ? List.of("on", "ends") : List.of("at")) {
      if (input.has(name)) {
        input.member(name).refuse("does not belong to a limit by " + (byUse ? "use" : "calendar"));
      }
    }
  }

  private static Limit.Fixed fixed(JsonInput input, Scale scale, String point, List<Need> needs) {
    for (String name : List.of("ends", "from", "late", "window")) {
      // Where the limit is by use, ends was refused already.
      if (input.has(name) && !(name.equals("ends") && input.has("counter"))) {
        input.member(name).refuse("does not belong to a limit at a fixed point");
      }
    }
    Distance soon = distance(input, "soon", scale);
    Distance tolerance = distance(input, "tolerance", scale);
    if (scale == null || scale == Calendar.DAYS != point.equals("on")) {
      return null;
    }
    needs.add(new Need(scale, null, null));
    Long at =
        scale instanceof Counter counter
            ? input.member(point).parsed(counter.unit()::parse)
            : input.member(point).<Long>parsed(text -> DateText.parse(text).toEpochDay());
    return at == null ? null : new Limit.Fixed(scale, at, soon, tolerance);
  }

  private static Limit every(JsonInput input, Scale scale, List<Need> needs, int before) {
    String from = from(input);
    if (scale != null && from != null) {
      needs.add(new Need(scale, from, input.member("from")));
    }
    Limit.Late late = input.has("late") ? input.member("late").word(LATE) : Limit.Late.RESTART;
    Limit.Ends ends =
        input.has("ends") && !input.has("counter")
            ? input.member("ends").word(ENDS)
            : Limit.Ends.ANNIVERSARY;
    Distance every = everyDistance(input, scale);
    Distance soon = distance(input, "soon", scale);
    Distance tolerance = distance(input, "tolerance", scale);
    Distance window = distance(input, "window", scale);
    if (from != null && !from.equals(Limit.LAST_DONE)) {
      onlyFromLastDone(input);
    }
    if (ends == Limit.Ends.MONTH_END
        && every instanceof Interval period
        && !period.isWholeMonths()) {
      input.member("ends").refuse("month-end goes only with whole months or years");
    }
    if (window != null && every != null && !window.isSmallerThan(every)) {
      input.member("window").refuse("must be smaller than every");
    }
    return input.problems() > before
        ? null
        : new Limit.Every(scale, every, ends, from, soon, tolerance, late, window);
  }

  private static void onlyFromLastDone(JsonInput input) {
    for (String name : List.of("late", "window")) {
      if (input.has(name)) {
        input.member(name).refuse("goes only with a limit that counts from last-done");
      }
    }
  }

  private static String from(JsonInput input) {
    if (!input.has("from")) {
      return Limit.LAST_DONE;
    }
    return input.member("from").parsed(LimitJson::originName);
  }

  static String originName(String text) {
    if (!Counter.isName(text)) {
      throw new IllegalArgumentException("must be last-done or the name of an origin");
    }
    return text;
  }

  private static Distance everyDistance(JsonInput input, Scale scale) {
    if (!input.has("every")) {
      input.missing("every", "is missing: a limit has every, or a fixed point");
      return null;
    }
    Distance every = distance(input, "every", scale);
    if (every != null && every.isZero()) {
      input.member("every").refuse("must be more than nothing");
      return null;
    }
    return every;
  }

  /** The member on the limit's scale; null where it is absent, wrong, or the scale is not known. */
  private static Distance distance(JsonInput input, String name, Scale scale) {
    JsonInput member = input.member(name);
    if (member == null || scale == null) {
      return null;
    }
    return scale instanceof Counter counter
        ? member.parsed(counter::amount)
        : member.parsed(Interval::parse);
  }
}
