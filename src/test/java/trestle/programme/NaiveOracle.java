package trestle.programme;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.time.Period;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The arithmetic a second time, from the text of its description alone and without a line of the
 * program: JSON in and out, big numbers, one step after another, sorting where the program
 * compares. Slow on purpose. It takes only cases that are right.
 */
final class NaiveOracle {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final List<String> SEVERITY =
      List.of("ahead", "soon", "due", "in-tolerance", "overdue");

  private final JsonNode body;
  private final LocalDate today;

  private NaiveOracle(JsonNode body) {
    this.body = body;
    this.today = LocalDate.parse(body.get("asOf").asText());
  }

  static JsonNode answer(JsonNode body) {
    JsonNode rule = body.get("rule");
    boolean done = body.path("history").size() > 0;
    if (done && rule.path("once").asBoolean()) {
      ObjectNode over = JSON.createObjectNode();
      over.put("state", "done").put("spent", false).putNull("projectedOn");
      over.putArray("controlling");
      over.putArray("limits");
      return over;
    }
    JsonNode group = !done && rule.has("initial") ? rule.get("initial") : rule;
    return new NaiveOracle(body).group(group);
  }

  private ObjectNode group(JsonNode group) {
    List<ObjectNode> answers = new ArrayList<>();
    for (JsonNode entry : group.get("limits")) {
      answers.add(entry.has("limits") ? group(entry) : limit(entry));
    }
    boolean last = group.path("combine").asText("first").equals("last");

    Comparator<ObjectNode> bySeverity =
        Comparator.comparing(answer -> SEVERITY.indexOf(answer.get("state").asText()));
    ObjectNode extreme =
        last ? Collections.min(answers, bySeverity) : Collections.max(answers, bySeverity);

    Comparator<Integer> byLateness = Comparator.comparing(i -> lateness(answers.get(i)));
    Comparator<Integer> byDate = Comparator.comparing(i -> dateOrEndOfTime(answers.get(i)));
    Comparator<Integer> order =
        last
            ? byLateness.thenComparing(byDate.reversed())
            : byLateness.reversed().thenComparing(byDate);
    int leading = IntStream.range(0, answers.size()).boxed().sorted(order).toList().get(0);

    ObjectNode answer = JSON.createObjectNode();
    answer.set("state", extreme.get("state"));
    long spent = answers.stream().filter(one -> one.get("spent").asBoolean()).count();
    answer.put("spent", last ? spent == answers.size() : spent > 0);
    List<String> dates =
        answers.stream()
            .filter(one -> !one.get("projectedOn").isNull())
            .map(one -> one.get("projectedOn").asText())
            .sorted()
            .toList();
    if (dates.isEmpty() || last && dates.size() < answers.size()) {
      answer.putNull("projectedOn");
    } else {
      answer.put("projectedOn", last ? dates.get(dates.size() - 1) : dates.get(0));
    }
    ArrayNode path = answer.putArray("controlling").add(leading);
    if (answers.get(leading).has("controlling")) {
      path.addAll((ArrayNode) answers.get(leading).get("controlling"));
    }
    answer.putArray("limits").addAll(answers);
    return answer;
  }

  private static int lateness(ObjectNode answer) {
    int severity = SEVERITY.indexOf(answer.get("state").asText());
    return severity < SEVERITY.indexOf("due") ? 0 : severity;
  }

  private static String dateOrEndOfTime(ObjectNode answer) {
    return answer.get("projectedOn").isNull() ? "9999-99" : answer.get("projectedOn").asText();
  }

  private ObjectNode limit(JsonNode limit) {
    return limit.has("counter") ? byUse(limit) : byCalendar(limit);
  }

  private ObjectNode byUse(JsonNode limit) {
    String counter = limit.get("counter").asText();
    boolean hours = counter.equals("hours") || counter.endsWith("-hours");
    BigInteger now = number(body.get("usage").get(counter), hours);
    BigInteger tolerance = number(limit.get("tolerance"), hours);
    boolean[] overrun = {false};
    BigInteger due = dueAt(limit, counter, hours, tolerance, overrun);
    BigInteger left = due.subtract(now);

    ObjectNode answer = JSON.createObjectNode();
    answer.put("counter", counter);
    answer.put("dueAt", written(due, hours));
    answer.put("remaining", written(left, hours));
    String state;
    if (left.signum() > 0) {
      boolean soon = limit.has("soon") && left.compareTo(number(limit.get("soon"), hours)) <= 0;
      state = soon ? "soon" : "ahead";
    } else if (left.signum() == 0) {
      state = "due";
    } else {
      state = left.negate().compareTo(tolerance) <= 0 ? "in-tolerance" : "overdue";
    }
    answer.put("state", state);
    answer.put("spent", left.add(tolerance).signum() <= 0);
    if (fromLastDone(limit)) {
      answer.put("overrun", overrun[0]);
    }
    answer.put("projectedOn", usedUp(left, counter, hours));
    return answer;
  }

  private BigInteger dueAt(
      JsonNode limit, String counter, boolean hours, BigInteger tolerance, boolean[] overrun) {
    if (limit.has("at")) {
      return number(limit.get("at"), hours);
    }
    BigInteger every = number(limit.get("every"), hours);
    if (!fromLastDone(limit)) {
      JsonNode origin = body.get("origins").get(limit.get("from").asText());
      return number(origin.get("usage").get(counter), hours).add(every);
    }
    List<BigInteger> rows = new ArrayList<>();
    rowsFromBaseline().forEach(row -> rows.add(number(row.get("usage").get(counter), hours)));
    BigInteger anchor = rows.remove(0);
    BigInteger due = anchor.add(every);
    for (BigInteger done : rows) {
      overrun[0] = done.compareTo(due.add(tolerance)) > 0;
      boolean inWindow =
          limit.has("window")
              && done.subtract(due).abs().compareTo(number(limit.get("window"), hours)) <= 0;
      boolean keep = limit.path("late").asText().equals("keep-schedule");
      if (inWindow) {
        due = due.add(every);
      } else if (done.compareTo(due) > 0 && keep) {
        while (due.compareTo(done) <= 0) {
          due = due.add(every);
        }
      } else {
        due = done.add(every);
      }
    }
    return due;
  }

  private String usedUp(BigInteger left, String counter, boolean hours) {
    if (left.signum() <= 0) {
      return today.toString();
    }
    String rate = body.path("utilisation").path(counter).asText("0");
    BigDecimal aDay = new BigDecimal(rate).multiply(hours ? new BigDecimal(3600) : BigDecimal.ONE);
    if (aDay.signum() == 0) {
      return null;
    }
    BigDecimal days = new BigDecimal(left).divide(aDay, 0, RoundingMode.CEILING);
    BigDecimal most = new BigDecimal(LocalDate.of(9999, 12, 31).toEpochDay() - today.toEpochDay());
    return days.compareTo(most) > 0 ? null : today.plusDays(days.longValueExact()).toString();
  }

  private ObjectNode byCalendar(JsonNode limit) {
    boolean[] overrun = {false};
    LocalDate due = dueOn(limit, overrun);
    LocalDate lastGood = later(due, limit.get("tolerance"));
    ObjectNode answer = JSON.createObjectNode();
    answer.put("calendar", true);
    answer.put("dueOn", due.toString());
    answer.put("remainingDays", due.toEpochDay() - today.toEpochDay());
    String state;
    if (today.isBefore(due)) {
      boolean soon = limit.has("soon") && !today.isBefore(earlier(due, limit.get("soon")));
      state = soon ? "soon" : "ahead";
    } else if (today.equals(due)) {
      state = "due";
    } else {
      state = today.isAfter(lastGood) ? "overdue" : "in-tolerance";
    }
    answer.put("state", state);
    answer.put("spent", today.isAfter(lastGood));
    if (fromLastDone(limit)) {
      answer.put("overrun", overrun[0]);
    }
    answer.put("projectedOn", (today.isAfter(due) ? today : due).toString());
    return answer;
  }

  private LocalDate dueOn(JsonNode limit, boolean[] overrun) {
    if (limit.has("on")) {
      return LocalDate.parse(limit.get("on").asText());
    }
    if (!fromLastDone(limit)) {
      JsonNode origin = body.get("origins").get(limit.get("from").asText());
      return scheduled(limit, LocalDate.parse(origin.get("on").asText()), 1);
    }
    List<LocalDate> rows = new ArrayList<>();
    rowsFromBaseline().forEach(row -> rows.add(LocalDate.parse(row.get("on").asText())));
    LocalDate anchor = rows.remove(0);
    int k = 1;
    for (LocalDate done : rows) {
      LocalDate due = scheduled(limit, anchor, k);
      overrun[0] = done.isAfter(later(due, limit.get("tolerance")));
      boolean inWindow =
          limit.has("window")
              && !done.isBefore(earlier(due, limit.get("window")))
              && !done.isAfter(later(due, limit.get("window")));
      if (inWindow) {
        k++;
      } else if (done.isAfter(due) && limit.path("late").asText().equals("keep-schedule")) {
        while (!scheduled(limit, anchor, k).isAfter(done)) {
          k++;
        }
      } else {
        anchor = done;
        k = 1;
      }
    }
    return scheduled(limit, anchor, k);
  }

  private static LocalDate scheduled(JsonNode limit, LocalDate anchor, int times) {
    Period every = Period.parse(limit.get("every").asText());
    int months = every.getYears() * 12 + every.getMonths();
    YearMonth month = YearMonth.from(anchor).plusMonths((long) months * times);
    LocalDate day =
        month
            .atDay(Math.min(anchor.getDayOfMonth(), month.lengthOfMonth()))
            .plusDays((long) every.getDays() * times);
    return limit.path("ends").asText().equals("month-end")
        ? YearMonth.from(day).atEndOfMonth()
        : day;
  }

  private static LocalDate later(LocalDate day, JsonNode period) {
    return period == null ? day : day.plus(Period.parse(period.asText()).normalized());
  }

  private static LocalDate earlier(LocalDate day, JsonNode period) {
    return day.minus(Period.parse(period.asText()).normalized());
  }

  private static boolean fromLastDone(JsonNode limit) {
    return limit.has("every") && limit.path("from").asText("last-done").equals("last-done");
  }

  private List<JsonNode> rowsFromBaseline() {
    List<JsonNode> rows = new ArrayList<>();
    if (body.has("baseline")) {
      rows.add(body.get("baseline"));
    }
    body.path("history").forEach(rows::add);
    return rows;
  }

  /** Seconds, or a count; nothing is none. */
  private static BigInteger number(JsonNode text, boolean hours) {
    if (text == null) {
      return BigInteger.ZERO;
    }
    if (!hours) {
      return new BigInteger(text.asText());
    }
    String[] parts = text.asText().split(":");
    BigDecimal seconds = BigDecimal.ZERO;
    int unit = 3600;
    for (String part : parts) {
      seconds = seconds.add(new BigDecimal(part).multiply(new BigDecimal(unit)));
      unit /= 60;
    }
    return seconds.toBigIntegerExact();
  }

  private static String written(BigInteger number, boolean hours) {
    if (!hours) {
      return number.toString();
    }
    BigInteger[] hundredths = number.divideAndRemainder(BigInteger.valueOf(36));
    if (hundredths[1].signum() == 0) {
      String plain = new BigDecimal(hundredths[0], 2).stripTrailingZeros().toPlainString();
      return number.signum() == 0 ? "0" : plain;
    }
    long size = number.abs().longValueExact();
    String text = "%d:%02d".formatted(size / 3600, size / 60 % 60);
    String exact = size % 60 == 0 ? text : text + ":%02d".formatted(size % 60);
    return number.signum() < 0 ? "-" + exact : exact;
  }
}
