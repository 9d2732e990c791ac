package trestle.demo;

import java.util.ArrayList;
import java.util.List;

/**
 * The inspections of one aircraft through the two years, from the last one backwards: each a
 * 100-hour inspection or, often enough for the calendar, an annual; with 50-hour services between.
 */
final class Inspections {
  private static final long APART = 96 * 60;
  private static final int MOST_DAYS_APART = 320;
  private static final int NEWEST_ANNUAL_WITHIN = 300;
  private static final int ANNUALS_WITHIN = 355;
  private static final long SERVICE_EVERY = 46 * 60;
  private static final long NO_SERVICE_WITHIN = 15 * 60;
  private static final String OLD_PAPERS = "Airframe log, last page before these records";

  static List<Work> of(FlightPlan plan, long sinceLast) {
    List<Integer> places = places(plan, sinceLast);
    List<Work> work = new ArrayList<>();
    long annualAfter = plan.today().toEpochDay() - NEWEST_ANNUAL_WITHIN;
    for (int i = 0; i < places.size(); i++) {
      int place = places.get(i);
      // The oldest inspection that still comes in time for the annual after it.
      boolean annual =
          place == 0 || i + 1 == places.size() || day(plan, places.get(i + 1)) < annualAfter;
      if (annual) {
        annualAfter = day(plan, place) - ANNUALS_WITHIN;
      }
      work.add(inspection(plan, place, annual, i));
      long until = i == 0 ? plan.flights().size() : places.get(i - 1);
      work.addAll(services(plan, place, (int) until));
    }
    return work;
  }

  private static List<Integer> places(FlightPlan plan, long sinceLast) {
    List<Integer> places = new ArrayList<>();
    int place = plan.placeAgo(sinceLast);
    places.add(place);
    while (place > 0) {
      place = earlier(plan, place, APART, MOST_DAYS_APART);
      places.add(place);
    }
    return places;
  }

  /** The earliest flying day from which to the place no more is flown, and no more days go by. */
  static int earlier(FlightPlan plan, int place, long mostMinutes, int mostDays) {
    int found = place - 1;
    while (!plan.startsDay(found)) {
      found--;
    }
    for (int i = found; i >= 0; i--) {
      if (plan.minutesBetween(i, place) > mostMinutes
          || day(plan, place) - day(plan, i) > mostDays) {
        break;
      }
      found = plan.startsDay(i) ? i : found;
    }
    return found;
  }

  private static List<Work> services(FlightPlan plan, int from, int until) {
    List<Work> work = new ArrayList<>();
    int last = from;
    for (int i = from + 1; i < until; i++) {
      boolean nextWouldBeLate =
          i + 1 < until && plan.minutesBetween(last, nextDay(plan, i + 1, until)) > SERVICE_EVERY;
      boolean inspectedSoon =
          until < plan.flights().size() && plan.minutesBetween(i, until) < NO_SERVICE_WITHIN;
      if (plan.startsDay(i) && nextWouldBeLate && !inspectedSoon) {
        work.add(
            new Work(plan.registration(), "", "50-hour", plan.momentAt(i), engineer(i), "", ""));
        last = i;
      }
    }
    return work;
  }

  private static int nextDay(FlightPlan plan, int place, int until) {
    int next = place;
    while (next < until && !plan.startsDay(next)) {
      next++;
    }
    return next;
  }

  private static Work inspection(FlightPlan plan, int place, boolean annual, int number) {
    boolean old = place == 0;
    return new Work(
        plan.registration(),
        "",
        annual ? "annual" : "100-hour",
        plan.momentAt(place),
        old ? "quill" : engineer(number),
        old ? OLD_PAPERS : "",
        "");
  }

  private static String engineer(int number) {
    return number % 3 == 0 ? "fenwick" : "brandt";
  }

  private static long day(FlightPlan plan, int place) {
    return plan.flights().get(place).day();
  }

  private Inspections() {}
}
