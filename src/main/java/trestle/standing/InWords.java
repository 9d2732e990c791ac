package trestle.standing;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import trestle.reckoning.Amount;
import trestle.reckoning.Distance;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Scale;
import trestle.reckoning.Unit;

/**
 * What is left, due or past, in the words of a page. Hours as the aircraft shows them: what is left
 * rounded down, what is used rounded up.
 */
public record InWords(HoursStyle style) {

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);

  /** "8.5 h", "-1.5 h", "67 days", "120 landings"; "not known"; "" where it is due with others. */
  public String left(LimitReckoning limit) {
    if (limit.remaining() == Scale.UNKNOWN) {
      return limit.limit() instanceof Limit.With ? "" : "not known";
    }
    if (limit.isByCalendar()) {
      return days(limit.remaining());
    }
    return minus(amount(limit, limit.remaining(), true));
  }

  /** "6,494.0 h", "9,300 landings", "31 January 2027"; "not known". */
  public String due(LimitReckoning limit) {
    if (limit.due() == Scale.UNKNOWN) {
      return limit.limit() instanceof Limit.With ? "with other work" : "not known";
    }
    return limit.isByCalendar() ? date(limit.dueOn()) : amount(limit, limit.due(), true);
  }

  /** A total, rounded up: "6,482.6 h", "9,117". */
  public String used(Amount amount) {
    return amount.unit() == Unit.HOURS
        ? style.used(amount.hours()) + " h"
        : grouped(amount.units());
  }

  /** "2.3 h past its limit", "at its limit". */
  public String past(LimitReckoning limit) {
    if (limit.remaining() == Scale.UNKNOWN) {
      return "past its limit";
    }
    String tolerance =
        ((Limit.Measured) limit.limit()).tolerance() == null ? "" : ", its tolerance used up";
    if (limit.remaining() == 0) {
      return "at its limit, nothing left";
    }
    return (limit.isByCalendar()
            ? days(-limit.remaining())
            : amount(limit, -limit.remaining(), false))
        + " past its limit"
        + tolerance;
  }

  /** "8.5 h left", "until 15 May 2026". */
  String toleranceLeft(LimitReckoning limit) {
    Distance tolerance = ((Limit.Measured) limit.limit()).tolerance();
    long lastGood = tolerance.after(limit.due());
    return tolerance instanceof Interval
        ? "until " + date(LocalDate.ofEpochDay(lastGood))
        : amount(limit, lastGood - (limit.due() - limit.remaining()), true) + " left";
  }

  /** What may not be flown: "not IFR", "not for hire", "not at night". */
  public String not(String forbids) {
    return switch (forbids) {
      case DueItem.ANY_FLIGHT -> "no flight";
      case "hire" -> "not for hire";
      case "night" -> "not at night";
      default -> "not " + forbids;
    };
  }

  public static String date(LocalDate day) {
    return DAY.format(day);
  }

  public static String days(long days) {
    return minus(grouped(days) + (Math.abs(days) == 1 ? " day" : " days"));
  }

  private String amount(LimitReckoning limit, long units, boolean left) {
    if (limit.counter().inHours()) {
      Amount hours = new Amount(units, Unit.HOURS);
      String other = limit.counter().name().equals("hours") ? "" : " (" + limit.counter() + ")";
      return (left ? style.left(hours.hours()) : style.used(hours.hours())) + " h" + other;
    }
    String name = limit.counter().name().replace('-', ' ');
    return grouped(units) + " " + (Math.abs(units) == 1 ? singular(name) : name);
  }

  private static String singular(String name) {
    return name.endsWith("s") ? name.substring(0, name.length() - 1) : name;
  }

  private static String grouped(long whole) {
    return String.format(Locale.ENGLISH, "%,d", whole);
  }

  private static String minus(String text) {
    return text.startsWith("-") ? "\u2212" + text.substring(1) : text;
  }
}
