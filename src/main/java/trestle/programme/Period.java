package trestle.programme;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import trestle.reckoning.Interval;

/** A period as a person types it: 12 months, 1 year 6 months, 90 days; or P12M. */
final class Period {
  private static final Pattern WORDS =
      Pattern.compile(
          "(?:(\\d{1,4}) ?y(?:ears?)?)?[ ,]*(?:and )?(?:(\\d{1,4}) ?m(?:onths?)?)?[ ,]*(?:and )?"
              + "(?:(\\d{1,5}) ?w(?:eeks?)?)?[ ,]*(?:and )?(?:(\\d{1,6}) ?d(?:ays?)?)?");

  private Period() {}

  static Interval parse(String typed) {
    String text = typed.strip().toLowerCase(Locale.ROOT).replaceAll("\\s+", " ");
    if (text.startsWith("p")) {
      return Interval.parse(text.toUpperCase(Locale.ROOT));
    }
    if (text.matches("\\d+")) {
      throw new IllegalArgumentException("must say of what, like 12 months or 90 days");
    }
    Matcher parts = WORDS.matcher(text);
    if (text.isEmpty() || !parts.matches()) {
      throw new IllegalArgumentException("must be a period, like 12 months or 90 days");
    }
    return new Interval(
        part(parts.group(1)), part(parts.group(2)), part(parts.group(3)), part(parts.group(4)));
  }

  /** The text which {@link #parse} reads back. */
  static String text(Interval period) {
    StringBuilder text = new StringBuilder();
    add(text, period.years(), "year");
    add(text, period.months(), "month");
    add(text, period.weeks(), "week");
    add(text, period.days(), "day");
    return text.toString();
  }

  private static void add(StringBuilder text, int number, String unit) {
    if (number > 0) {
      text.append(text.isEmpty() ? "" : " ").append(number).append(' ').append(unit);
      text.append(number == 1 ? "" : "s");
    }
  }

  private static int part(String digits) {
    return digits == null ? 0 : Integer.parseInt(digits);
  }
}
