package trestle.web;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads what people type. What cannot be read is refused with an IllegalArgumentException, whose
 * message goes on from the field's label: "must be a time, like 10:18".
 */
final class Typed {
  private static final List<String> MONTHS =
      List.of("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec");
  private static final List<String> LONG_MONTHS =
      List.of(
          "january",
          "february",
          "march",
          "april",
          "may",
          "june",
          "july",
          "august",
          "september",
          "october",
          "november",
          "december");

  private static final Pattern ISO = Pattern.compile("(\\d{4})-(\\d{1,2})-(\\d{1,2})");
  private static final Pattern DOTS = Pattern.compile("(\\d{1,2})\\. ?(\\d{1,2})\\. ?(\\d{4})");
  private static final Pattern SLASHES = Pattern.compile("(\\d{1,2})[/-](\\d{1,2})[/-](\\d{4})");
  private static final Pattern DAY_FIRST =
      Pattern.compile("(\\d{1,2})(?:st|nd|rd|th)?[ .-]*([a-z]{3,9})[ .,-]*(\\d{4})");
  private static final Pattern MONTH_FIRST =
      Pattern.compile("([a-z]{3,9})[ .]*(\\d{1,2})(?:st|nd|rd|th)?[ ,]+(\\d{4})");
  private static final Pattern SHORT_YEAR =
      Pattern.compile(".*\\D\\d{1,2}|\\d{1,2}[ .]*[a-z]{3,9}\\.?");
  private static final Pattern TIME = Pattern.compile("(\\d{1,2}):(\\d{2})|(\\d{2})(\\d{2})");
  private static final Pattern THOUSANDS = Pattern.compile("\\d{1,3}(?:[, ]\\d{3})+(?=\\.|$)");

  private static final String A_DATE = "must be a date, like 25 November 2026";

  private Typed() {}

  /** Without blanks at the ends (those of the wide kind too) and without control characters. */
  static String clean(String typed) {
    return typed
        .replaceAll("[\\u00a0\\u2007\\u202f]", " ")
        .replaceAll("[\\p{Cntrl}&&[^\\r\\n\\t]]", "")
        .strip();
  }

  static long count(String typed, long most) {
    String text = withoutThousands(typed);
    if (negative(text)) {
      throw wrong("must not be negative");
    }
    if (!text.matches("\\d+")) {
      throw wrong("must be a whole number, like 12");
    }
    if (text.length() > 18 || Long.parseLong(text) > most) {
      throw wrong("must be at most " + Shown.count(most));
    }
    return Long.parseLong(text);
  }

  static BigDecimal decimal(String typed, int digits) {
    String text = withoutThousands(typed);
    if (negative(text)) {
      throw wrong("must not be negative");
    }
    if (text.matches("\\d+,\\d+")) {
      throw wrong("has a comma: write a point, like 12.5");
    }
    if (!text.matches("\\d+(\\.\\d+)?|\\.\\d+")) {
      throw wrong("must be a number, like 12.5");
    }
    BigDecimal value = new BigDecimal(text);
    if (value.stripTrailingZeros().scale() > digits) {
      throw wrong("must have at most " + Shown.plural(digits, "digit") + " after the point");
    }
    if (value.compareTo(BigDecimal.valueOf(10_000_000)) > 0) {
      throw wrong("must be at most 10,000,000");
    }
    return value;
  }

  static LocalTime time(String typed) {
    Matcher time = TIME.matcher(typed);
    if (time.matches()) {
      boolean colon = time.group(1) != null;
      int hour = Integer.parseInt(time.group(colon ? 1 : 3));
      int minute = Integer.parseInt(time.group(colon ? 2 : 4));
      if (hour < 24 && minute < 60) {
        return LocalTime.of(hour, minute);
      }
    }
    throw wrong("must be a time, like 10:18");
  }

  static LocalDate notAfter(LocalDate date, LocalDate today) {
    if (date.isAfter(today)) {
      throw wrong("must not be in the future: today is " + Shown.date(today));
    }
    return date;
  }

  static LocalDate date(String typed) {
    String text = typed.replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
    Matcher iso = ISO.matcher(text);
    if (iso.matches()) {
      return date(number(iso, 1), number(iso, 2), number(iso, 3));
    }
    Matcher dots = DOTS.matcher(text);
    if (dots.matches()) {
      return date(number(dots, 3), number(dots, 2), number(dots, 1));
    }
    Matcher slashes = SLASHES.matcher(text);
    if (slashes.matches()) {
      return slashed(typed, number(slashes, 1), number(slashes, 2), number(slashes, 3));
    }
    return dateInWords(text);
  }

  private static LocalDate dateInWords(String text) {
    Matcher dayFirst = DAY_FIRST.matcher(text);
    if (dayFirst.matches()) {
      return date(number(dayFirst, 3), month(dayFirst.group(2)), number(dayFirst, 1));
    }
    Matcher monthFirst = MONTH_FIRST.matcher(text);
    if (monthFirst.matches()) {
      return date(number(monthFirst, 3), month(monthFirst.group(1)), number(monthFirst, 2));
    }
    if (SHORT_YEAR.matcher(text).matches()) {
      throw wrong("must have its year in full, like 25 November 2026");
    }
    throw wrong(A_DATE);
  }

  /** Day and month in either order are taken only when no other reading is possible. */
  private static LocalDate slashed(String typed, int first, int second, int year) {
    if (first <= 12 && second <= 12 && first != second && first > 0 && second > 0) {
      throw wrong(
          String.format(
              "is not clear: %s may be %s or %s. Write the month as a word",
              typed, Shown.date(date(year, second, first)), Shown.date(date(year, first, second))));
    }
    return first > 12 ? date(year, second, first) : date(year, first, second);
  }

  private static LocalDate date(int year, int month, int day) {
    if (year < 1900 || year > 2199) {
      throw wrong("must be a date from 1900 to 2199");
    }
    try {
      return LocalDate.of(year, month, day);
    } catch (DateTimeException e) {
      throw wrong(A_DATE + "; there is no such day");
    }
  }

  private static int month(String name) {
    int month = LONG_MONTHS.indexOf(name);
    if (month < 0) {
      month = MONTHS.indexOf(name.equals("sept") ? "sep" : name);
    }
    if (month < 0) {
      throw wrong(A_DATE);
    }
    return month + 1;
  }

  private static int number(Matcher matcher, int group) {
    return Integer.parseInt(matcher.group(group));
  }

  private static String withoutThousands(String typed) {
    Matcher thousands = THOUSANDS.matcher(typed);
    return thousands.lookingAt()
        ? thousands.group().replaceAll("[, ]", "") + typed.substring(thousands.end())
        : typed;
  }

  private static boolean negative(String text) {
    return text.matches("[-\\u2212\\u2013] ?[\\d.].*");
  }

  private static IllegalArgumentException wrong(String predicate) {
    return new IllegalArgumentException(predicate);
  }
}
