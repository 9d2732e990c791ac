package trestle.programme;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.Random;

/** Cases that are right, at random: every kind of limit, nested, near and past their due points. */
final class RandomCases {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String[] COUNTERS = {"hours", "landings", "heater-hours"};

  private final Random random;

  RandomCases(long seed) {
    this.random = new Random(seed);
  }

  ObjectNode next() {
    ObjectNode body = JSON.createObjectNode();
    LocalDate day = LocalDate.of(2010 + random.nextInt(12), 1, 1).plusDays(random.nextInt(365));
    long[] totals = {random.nextInt(3_600_000), random.nextInt(3_000), random.nextInt(900_000)};
    int doings = random.nextInt(5);
    if (doings == 0 || random.nextInt(4) > 0) {
      body.set("baseline", reading(day, totals));
    }
    ArrayNode history = body.putArray("history");
    for (int i = 0; i < doings; i++) {
      day = advance(day, totals);
      history.add(reading(day, totals));
    }
    day = advance(day, totals);
    body.put("asOf", day.toString());
    body.set("usage", usage(totals));
    ObjectNode origins = body.putObject("origins");
    for (String name : new String[] {"new", "overhaul", "effective"}) {
      long[] then = {random.nextInt(7_200_000), random.nextInt(6_000), random.nextInt(1_800_000)};
      origins.set(name, reading(LocalDate.of(2005, 1, 31).plusDays(random.nextInt(6_000)), then));
    }
    ObjectNode rates = body.putObject("utilisation");
    for (String counter : COUNTERS) {
      if (random.nextInt(4) > 0) {
        rates.put(counter, random.nextInt(4) + "." + random.nextInt(10_000));
      }
    }
    ObjectNode rule = group(2);
    if (random.nextInt(4) == 0) {
      rule.set("initial", group(1));
    }
    if (random.nextInt(6) == 0) {
      rule.put("once", true);
    }
    body.set("rule", rule);
    return body;
  }

  /** Usually about an interval on, sometimes several, sometimes hardly. */
  private LocalDate advance(LocalDate day, long[] totals) {
    totals[0] += amount(360_000);
    totals[1] += amount(100);
    totals[2] += amount(180_000);
    return day.plusDays(amount(365));
  }

  private long amount(int usual) {
    return switch (random.nextInt(6)) {
      case 0 -> random.nextInt(3);
      case 1 -> usual;
      case 2 -> (long) usual * 3 + random.nextInt(usual);
      default -> usual * 9L / 10 + random.nextInt(usual / 5);
    };
  }

  private ObjectNode group(int deeper) {
    ObjectNode group = JSON.createObjectNode();
    if (random.nextBoolean()) {
      group.put("combine", random.nextBoolean() ? "last" : "first");
    }
    ArrayNode limits = group.putArray("limits");
    int size = 1 + random.nextInt(3);
    for (int i = 0; i < size; i++) {
      limits.add(deeper > 0 && random.nextInt(5) == 0 ? group(deeper - 1) : limit());
    }
    return group;
  }

  private ObjectNode limit() {
    return random.nextBoolean() ? byUse() : byCalendar();
  }

  private ObjectNode byUse() {
    int which = random.nextInt(COUNTERS.length);
    int usual = new int[] {360_000, 100, 180_000}[which];
    ObjectNode limit = JSON.createObjectNode().put("counter", COUNTERS[which]);
    if (random.nextInt(5) == 0) {
      limit.put("at", text(which, random.nextInt(usual * 40)));
    } else {
      limit.put("every", text(which, usual * (1 + random.nextInt(3)) + random.nextInt(2)));
      perhapsFrom(limit, text(which, random.nextInt(usual)));
    }
    perhaps(limit, "soon", text(which, random.nextInt(usual)));
    perhaps(limit, "tolerance", text(which, random.nextInt(usual / 2)));
    return limit;
  }

  private ObjectNode byCalendar() {
    ObjectNode limit = JSON.createObjectNode().put("calendar", true);
    if (random.nextInt(5) == 0) {
      limit.put("on", LocalDate.of(2012, 1, 31).plusDays(random.nextInt(6_000)).toString());
    } else {
      String[] every = {"P12M", "P1Y", "P90D", "P1M15D", "P6M", "P24M", "P52W", "P1Y1M1W1D"};
      int chosen = random.nextInt(every.length);
      limit.put("every", every[chosen]);
      if (every[chosen].matches("P[0-9]+[MY]") && random.nextBoolean()) {
        limit.put("ends", random.nextBoolean() ? "month-end" : "anniversary");
      }
      String[] window = {"P1M", "P30D", "P10D", "P5W", "P1D", "P1M3D"};
      perhapsFrom(limit, window[random.nextInt(window.length)]);
    }
    String[] aside = {"P1M", "P30D", "P2M", "P1W", "P1M5D", "P1Y"};
    perhaps(limit, "soon", aside[random.nextInt(aside.length)]);
    perhaps(limit, "tolerance", aside[random.nextInt(aside.length)]);
    return limit;
  }

  private void perhapsFrom(ObjectNode limit, String window) {
    if (random.nextInt(4) == 0) {
      limit.put("from", new String[] {"new", "overhaul", "effective"}[random.nextInt(3)]);
      return;
    }
    if (random.nextInt(4) == 0) {
      limit.put("from", "last-done");
    }
    if (random.nextBoolean()) {
      limit.put("late", random.nextInt(3) > 0 ? "keep-schedule" : "restart");
    }
    perhaps(limit, "window", window);
  }

  private void perhaps(ObjectNode limit, String name, String text) {
    if (random.nextInt(3) == 0) {
      limit.put(name, text);
    }
  }

  private ObjectNode reading(LocalDate day, long[] totals) {
    ObjectNode reading = JSON.createObjectNode().put("on", day.toString());
    reading.set("usage", usage(totals));
    return reading;
  }

  private ObjectNode usage(long[] totals) {
    ObjectNode usage = JSON.createObjectNode();
    for (int i = 0; i < totals.length; i++) {
      usage.put(COUNTERS[i], text(i, totals[i]));
    }
    return usage;
  }

  private String text(int which, long units) {
    if (which == 1) {
      return Long.toString(units);
    }
    if (units % 36 == 0 && random.nextBoolean()) {
      return units / 3600 + "." + "%02d".formatted(units / 36 % 100);
    }
    return "%d:%02d:%02d".formatted(units / 3600, units / 60 % 60, units % 60);
  }
}
