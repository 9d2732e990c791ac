package trestle.reckoning;

import java.time.LocalDate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A period of the calendar: years, months, weeks, days; ISO 8601 text such as {@code P12M}, {@code
 * P90D}, {@code P1M15D}. More than nothing, at most 200 years.
 *
 * <p>Added to a date, the months go first, to the same day of the month or else its last valid day,
 * and then the days: 31 January plus one month is 28 February. Several times over is one step from
 * the same date, never a chain: 31 January plus two months is 31 March.
 */
public record Interval(int years, int months, int weeks, int days) implements Distance {

  private static final Pattern FORM =
      Pattern.compile("P(?:([0-9]+)Y)?(?:([0-9]+)M)?(?:([0-9]+)W)?(?:([0-9]+)D)?");

  /** 400 years are 4,800 months and 146,097 days, in the calendar's own count. */
  private static final long DAYS_IN_4800_MONTHS = 146_097;

  private static final long MOST = 2_400 * DAYS_IN_4800_MONTHS;

  public Interval {
    if (years < 0 || months < 0 || weeks < 0 || days < 0) {
      throw new IllegalArgumentException("must not be negative");
    }
    if (years > 200
        || months > 2_400
        || weeks > 20_000
        || days > 100_000
        || length(12L * years + months, 7L * weeks + days) > MOST) {
      throw new IllegalArgumentException("must be at most 200 years");
    }
    if (years + months + weeks + days == 0) {
      throw new IllegalArgumentException("must be more than nothing");
    }
  }

  public static Interval ofMonths(int months) {
    return new Interval(0, months, 0, 0);
  }

  public static Interval ofDays(int days) {
    return new Interval(0, 0, 0, days);
  }

  /**
   * Reads a period such as {@code P12M}.
   *
   * @throws IllegalArgumentException whose message is a sentence for the person who wrote it
   */
  public static Interval parse(String text) {
    Matcher parts = FORM.matcher(text);
    if (!parts.matches() || text.equals("P")) {
      throw new IllegalArgumentException(
          "must be a period of years, months, weeks or days such as P12M or P90D");
    }
    return new Interval(
        part(parts.group(1)), part(parts.group(2)), part(parts.group(3)), part(parts.group(4)));
  }

  public boolean isWholeMonths() {
    return weeks == 0 && days == 0;
  }

  /** Years and months, in months. */
  public long allMonths() {
    return 12L * years + months;
  }

  /** Weeks and days, in days. */
  public long allDays() {
    return 7L * weeks + days;
  }

  public LocalDate addedTo(LocalDate date) {
    return LocalDate.ofEpochDay(after(date.toEpochDay()));
  }

  public LocalDate takenFrom(LocalDate date) {
    return LocalDate.ofEpochDay(before(date.toEpochDay()));
  }

  @Override
  public long after(long point, long times) {
    return moved(point, times);
  }

  @Override
  public long before(long point) {
    return moved(point, -1);
  }

  private long moved(long point, long times) {
    long inMonths = allMonths() * times;
    long month =
        inMonths == 0 ? point : LocalDate.ofEpochDay(point).plusMonths(inMonths).toEpochDay();
    return month + allDays() * times;
  }

  @Override
  public long timesBetween(long from, long to) {
    return allDays() == 0 ? monthsBetween(from, to) : mixedBetween(from, to);
  }

  /** Only in the month of {@code to} itself do the days of the months matter. */
  private long monthsBetween(long from, long to) {
    LocalDate start = LocalDate.ofEpochDay(from);
    LocalDate end = LocalDate.ofEpochDay(to);
    long between = months(end) - months(start);
    long times = Math.floorDiv(between, allMonths());
    boolean laterThatMonth =
        between == times * allMonths()
            && Math.min(start.getDayOfMonth(), end.lengthOfMonth()) > end.getDayOfMonth();
    return laterThatMonth ? times - 1 : times;
  }

  private static long months(LocalDate date) {
    return 12L * date.getYear() + date.getMonthValue();
  }

  /** By division with the calendar's mean month, then put right by at most a step or two. */
  private long mixedBetween(long from, long to) {
    long times = Math.floorDiv((to - from) * 4_800, length(allMonths(), allDays()));
    while (after(from, times) > to) {
      times--;
    }
    while (after(from, times + 1) <= to) {
      times++;
    }
    return times;
  }

  /** The last day of the month in which {@link #after} falls, for whole months. */
  long afterToMonthEnd(long point, long times) {
    LocalDate day = LocalDate.ofEpochDay(point).plusMonths(allMonths() * times);
    return day.toEpochDay() + day.lengthOfMonth() - day.getDayOfMonth();
  }

  @Override
  public boolean isZero() {
    return false;
  }

  @Override
  public boolean isSmallerThan(Distance other) {
    return roughDays() < ((Interval) other).roughDays();
  }

  private long roughDays() {
    return allMonths() * 30 + allDays();
  }

  /** In 4,800ths of a day, which makes the mean month a whole number. */
  private static long length(long months, long days) {
    return months * DAYS_IN_4800_MONTHS + days * 4_800;
  }

  private static int part(String digits) {
    if (digits == null) {
      return 0;
    }
    String plain = digits.replaceFirst("^0+(?=.)", "");
    return plain.length() > 6 ? Integer.MAX_VALUE : Integer.parseInt(plain);
  }

  /** ISO 8601 text, which {@link #parse} reads back to an equal value. */
  @Override
  public String toString() {
    return "P"
        + (years == 0 ? "" : years + "Y")
        + (months == 0 ? "" : months + "M")
        + (weeks == 0 ? "" : weeks + "W")
        + (days == 0 ? "" : days + "D");
  }
}
