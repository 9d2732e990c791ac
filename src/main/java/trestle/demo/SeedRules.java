package trestle.demo;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.programme.Presence;
import trestle.programme.RequirementKind;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.Entry;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.standing.Force;

/** Reads what a requirement says from a line of {@code requirements.csv}. */
final class SeedRules {

  static Terms terms(SeedFile.Line line, LocalDate from, List<UUID> covers) {
    return new Terms(
        line.text("title"),
        RequirementKind.parse(line.text("kind")),
        rule(line),
        from,
        Force.parse(line.text("force")),
        line.text("forbids"),
        covers,
        line.text("tolerance_condition"),
        "",
        line.text("source"),
        line.has("labour_hours") ? line.count("labour_hours") * 60 : null,
        line.has("downtime_hours") ? line.count("downtime_hours") : null,
        Presence.ANYWHERE);
  }

  private static Rule rule(SeedFile.Line line) {
    List<Entry> limits = new ArrayList<>();
    if (line.has("hours")) {
      limits.add(byHours(line));
    }
    if (line.has("hours_at")) {
      limits.add(Limit.Fixed.at(Counter.HOURS, line.text("hours_at")));
    }
    if (line.has("calendar")) {
      limits.add(byCalendar(line));
    }
    Rule rule = Rule.first(limits.toArray(Entry[]::new));
    return line.has("hours_at") ? rule.onlyOnce() : rule;
  }

  private static Limit byHours(SeedFile.Line line) {
    Limit.Every limit = Limit.Every.of(Counter.HOURS, line.text("hours"));
    if (line.has("hours_from")) {
      limit = limit.from(line.text("hours_from"));
    }
    if (line.has("hours_soon")) {
      limit = limit.soon(line.text("hours_soon"));
    }
    if (line.has("hours_tolerance")) {
      limit = limit.tolerance(line.text("hours_tolerance"));
    }
    return line.text("hours_late").equals(Limit.Late.KEEP_SCHEDULE.word())
        ? limit.keepSchedule()
        : limit;
  }

  private static Limit byCalendar(SeedFile.Line line) {
    Limit.Every limit = Limit.Every.of(Interval.parse(line.text("calendar")));
    if (line.has("calendar_from")) {
      limit = limit.from(line.text("calendar_from"));
    }
    if (line.text("calendar_ends").equals(Limit.Ends.MONTH_END.word())) {
      limit = limit.toMonthEnd();
    }
    return line.has("calendar_soon") ? limit.soon(line.text("calendar_soon")) : limit;
  }

  private SeedRules() {}
}
