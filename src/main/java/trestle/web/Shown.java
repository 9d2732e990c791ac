package trestle.web;

import io.quarkus.qute.TemplateExtension;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import trestle.reckoning.Hours;
import trestle.reckoning.HoursStyle;

/**
 * How figures, dates and times are written on pages; in templates as {@code {shown:date(day)}}.
 * Figures come without their unit, except where the name says one.
 */
@TemplateExtension(namespace = "shown")
public final class Shown {
  private static final char MINUS = '\u2212';
  private static final DateTimeFormatter DATE = format("d MMMM uuuu");
  private static final DateTimeFormatter DAY = format("d MMM");
  private static final DateTimeFormatter DAY_WITH_YEAR = format("d MMM uuuu");
  private static final DateTimeFormatter WEEKDAY = format("EEEE d MMMM uuuu");
  private static final DateTimeFormatter TIME = format("HH:mm");
  private static final DateTimeFormatter MOMENT = format("d MMMM uuuu, HH:mm");

  private static final Pattern WHOLE_PART = Pattern.compile("^\\d{4,15}");

  private Shown() {}

  /** What is left, rounded down: 11.4, −1.5. */
  public static String left(Hours hours, HoursStyle style) {
    return style.left(hours).replace('-', MINUS);
  }

  /** What is used, rounded up: 6,482.6. */
  public static String used(Hours hours, HoursStyle style) {
    return style.used(hours).replace('-', MINUS);
  }

  /** Exactly as recorded: 12.5, or 12:31 where tenths would not say it. */
  public static String exact(Hours hours) {
    return hours.toString().replace('-', MINUS);
  }

  /**
   * A whole number with its thousands: 9,117.
   *
   * @param number of any whole kind: a template does not turn one into another
   */
  public static String count(Number number) {
    return String.format(Locale.ROOT, "%,d", number).replace('-', MINUS);
  }

  /** An amount as text with its thousands: 6,214.6, or 6,214:36. */
  public static String grouped(String amount) {
    Matcher whole = WHOLE_PART.matcher(amount);
    return whole.find()
        ? count(Long.parseLong(whole.group())) + amount.substring(whole.end())
        : amount;
  }

  public static String quantity(BigDecimal quantity) {
    BigDecimal plain = quantity.stripTrailingZeros();
    int digits = Math.max(0, plain.scale());
    return String.format(Locale.ROOT, "%,." + digits + "f", plain).replace('-', MINUS);
  }

  /** Somebody's own words, with the full stop they may have left out; nothing stays nothing. */
  public static String sentence(String words) {
    String text = words.strip();
    return text.isEmpty() || ".!?:;…".indexOf(text.charAt(text.length() - 1)) >= 0
        ? text
        : text + ".";
  }

  /** "1 landing", "2 landings". */
  public static String plural(Number number, String one) {
    return plural(number, one, one + "s");
  }

  /** "1 entry", "2 entries". */
  public static String plural(Number number, String one, String many) {
    return count(number) + " " + (Math.abs(number.longValue()) == 1 ? one : many);
  }

  /** "67 days", "−3 days". */
  public static String days(long days) {
    return plural(days, "day");
  }

  /** The biggest whole unit: "less than a minute", "14 minutes", "3 hours", "67 days". */
  public static String period(Duration period) {
    if (period.toMinutes() < 1) {
      return "less than a minute";
    }
    if (period.toHours() < 1) {
      return plural(period.toMinutes(), "minute");
    }
    return period.toHours() < 48 ? plural(period.toHours(), "hour") : days(period.toDays());
  }

  /** 25 November 2026. */
  public static String date(LocalDate day) {
    return DATE.format(day);
  }

  /** 25 Nov. */
  public static String day(LocalDate day) {
    return DAY.format(day);
  }

  /** 25 Nov near today's year, 25 Nov 2024 when its year is another. */
  public static String day(LocalDate day, LocalDate today) {
    return day.getYear() == today.getYear() ? DAY.format(day) : DAY_WITH_YEAR.format(day);
  }

  /** 25 Nov 2026: short enough for half of a phone's width, as the hints have it. */
  public static String typed(LocalDate day) {
    return DAY_WITH_YEAR.format(day);
  }

  /** Wednesday 25 November 2026. */
  public static String weekday(LocalDate day) {
    return WEEKDAY.format(day);
  }

  /** 09:12, in the zone given. */
  public static String time(Instant moment, ZoneId zone) {
    return TIME.format(moment.atZone(zone));
  }

  public static String time(LocalTime time) {
    return TIME.format(time);
  }

  /** 25 November 2026, 14:10; of a zone that is UTC it says so. */
  public static String moment(Instant moment, ZoneId zone) {
    return MOMENT.format(moment.atZone(zone)) + (isUtc(zone) ? " UTC" : "");
  }

  private static boolean isUtc(ZoneId zone) {
    return zone.normalized().equals(ZoneOffset.UTC);
  }

  private static DateTimeFormatter format(String pattern) {
    return DateTimeFormatter.ofPattern(pattern, Locale.ENGLISH);
  }
}
