package trestle.demo;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Two years of one aircraft: what it flew and what was done to it, reckoned backwards from today so
 * that what is left of each interval comes out as the seed says.
 */
record AircraftStory(FlightPlan plan, List<Work> work) {

  static List<AircraftStory> all(String base, LocalDate today, ZoneId zone) {
    return Flying.all(base).stream().map(flying -> of(flying, today, zone)).toList();
  }

  private static AircraftStory of(Flying flying, LocalDate today, ZoneId zone) {
    FlightPlan plan = FlightPlan.of(flying, today, zone);
    List<SeedFile.Line> inspections = linesOf("inspections.csv", plan);
    List<SeedFile.Line> done = linesOf("done.csv", plan);
    for (SeedFile.Line line : inspections) {
      plan = exactly(plan, line, "hours_since_last");
    }
    for (SeedFile.Line line : done) {
      plan = exactly(plan, line, "hours_ago");
    }
    List<Work> work = new ArrayList<>();
    for (SeedFile.Line line : inspections) {
      work.addAll(Inspections.of(plan, line.minutes("hours_since_last")));
    }
    for (SeedFile.Line line : done) {
      work.addAll(line.has("days_ago") ? List.of(onDay(plan, line)) : byHours(plan, line));
    }
    work.sort(Comparator.comparing(Work::at));
    return new AircraftStory(plan, List.copyOf(work));
  }

  String registration() {
    return plan.registration();
  }

  private static List<SeedFile.Line> linesOf(String file, FlightPlan plan) {
    return SeedFile.lines(file).stream()
        .filter(line -> line.text("registration").equals(plan.registration()))
        .toList();
  }

  private static FlightPlan exactly(FlightPlan plan, SeedFile.Line line, String column) {
    if (!line.yes("exact")) {
      return plan;
    }
    long wanted = line.minutes(column);
    return plan.exactlyFrom(plan.placeAgo(wanted), wanted);
  }

  private static Work onDay(FlightPlan plan, SeedFile.Line line) {
    return work(plan, line, plan.morning(line.count("days_ago")));
  }

  /** The last doing, and with a repeat those before it as far as the flights go back. */
  private static List<Work> byHours(FlightPlan plan, SeedFile.Line line) {
    List<Work> work = new ArrayList<>();
    long ago = line.minutes("hours_ago");
    int place = plan.placeAgo(ago);
    work.add(work(plan, line, plan.momentAt(place)));
    while (line.has("repeat_hours") && place > 0) {
      place = Inspections.earlier(plan, place, line.minutes("repeat_hours"), FlightPlan.DAYS);
      work.add(work(plan, line, plan.momentAt(place)));
    }
    return work;
  }

  private static Work work(FlightPlan plan, SeedFile.Line line, Instant at) {
    return new Work(
        plan.registration(),
        line.text("position"),
        line.text("requirement"),
        at,
        line.text("by"),
        line.text("transcribed_from"),
        line.text("remarks"));
  }
}
