package trestle.reckoning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** A rule in short English, for pages: "100 h or 12 months, whichever comes first". */
public final class RuleWords {

  private RuleWords() {}

  public static String every(Rule rule) {
    String words = group(rule.group());
    if (rule.initial() != null) {
      words = "first " + group(rule.initial()) + "; then " + words;
    }
    return rule.once() ? words + ", once" : words;
  }

  public static String group(Group group) {
    String joined =
        group.limits().stream()
            .map(entry -> entry instanceof Group inner ? "(" + group(inner) + ")" : limit(entry))
            .collect(Collectors.joining(" or "));
    if (group.limits().size() == 1) {
      return joined;
    }
    return joined
        + (group.combine() == Group.Combine.FIRST
            ? ", whichever comes first"
            : ", whichever is later");
  }

  /** One limit: "100 h, up to 10 h more". */
  public static String limit(Limit limit) {
    List<String> parts = new ArrayList<>();
    if (limit instanceof Limit.Every every) {
      parts.add(every(every));
    } else if (limit instanceof Limit.Fixed fixed) {
      parts.add(fixed(fixed));
    } else {
      parts.add("when the named work is next done");
    }
    if (limit instanceof Limit.Measured measured && measured.tolerance() != null) {
      parts.add("up to " + distance(measured.scale(), measured.tolerance()) + " more");
    }
    if (limit instanceof Limit.Every every && every.window() != null) {
      parts.add("on schedule when done within " + distance(every.scale(), every.window()));
    }
    if (limit instanceof Limit.Every every && every.late() == Limit.Late.KEEP_SCHEDULE) {
      parts.add("on schedule when late");
    }
    return String.join(", ", parts);
  }

  /** An amount in its counter's words, or an interval: "1,000 h", "12 months", "1 landing". */
  public static String distance(Scale scale, Distance distance) {
    return distance instanceof Interval interval
        ? interval(interval)
        : amount((Counter) scale, ((Amount) distance).units());
  }

  private static String limit(Entry entry) {
    return limit((Limit) entry);
  }

  private static String every(Limit.Every limit) {
    String distance = distance(limit.scale(), limit.every());
    String words =
        switch (limit.from()) {
          case Limit.LAST_DONE -> distance;
          case "effective" -> "within " + distance + " of the effective date";
          default -> distance + " since " + limit.from().replace('-', ' ');
        };
    return limit.ends() == Limit.Ends.MONTH_END ? words + " to the month's end" : words;
  }

  private static String fixed(Limit.Fixed limit) {
    return limit.scale() instanceof Counter counter
        ? "before " + amount(counter, limit.point()) + " total"
        : "by " + LocalDate.ofEpochDay(limit.point());
  }

  private static String amount(Counter counter, long units) {
    if (counter.inHours()) {
      String unit =
          counter.equals(Counter.HOURS)
              ? " h"
              : " h of " + counter.name().replaceFirst("-hours$", "").replace('-', ' ') + " time";
      return grouped(counter.unit().show(units)) + unit;
    }
    String name = counter.name().replace('-', ' ');
    return HoursStyle.grouped(units)
        + " "
        + (units == 1 && name.endsWith("s") ? name.substring(0, name.length() - 1) : name);
  }

  private static String grouped(String hours) {
    String whole = hours.split("[.:]", 2)[0];
    return HoursStyle.grouped(Long.parseLong(whole)) + hours.substring(whole.length());
  }

  private static String interval(Interval interval) {
    List<String> parts = new ArrayList<>();
    addPart(parts, interval.years(), "year");
    addPart(parts, interval.months(), "month");
    addPart(parts, interval.weeks(), "week");
    addPart(parts, interval.days(), "day");
    return String.join(" ", parts);
  }

  private static void addPart(List<String> parts, int number, String one) {
    if (number > 0) {
      parts.add(HoursStyle.grouped(number) + " " + one + (number == 1 ? "" : "s"));
    }
  }
}
