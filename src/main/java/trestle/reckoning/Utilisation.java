package trestle.reckoning;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Map;
import java.util.SortedMap;
import java.util.StringJoiner;
import java.util.TreeMap;
import java.util.regex.Pattern;

/**
 * How much of each counter a subject uses a day: a decimal to four places (hours, where the counter
 * is in hours).
 */
public record Utilisation(Tally tenThousandths) {

  /** No rate is known. */
  public static final Utilisation NONE = new Utilisation(new Tally(Map.of()));

  private static final Pattern FORM = Pattern.compile("[0-9]{1,8}(\\.[0-9]{1,4})?");
  private static final long LAST_DAY = LocalDate.of(9999, 12, 31).toEpochDay();

  /** From rates in ten-thousandths a day. */
  public static Utilisation ofTenThousandths(Map<Counter, Long> rates) {
    return new Utilisation(new Tally(rates));
  }

  public static Utilisation of(Counter counter, String rate) {
    return NONE.with(counter, rate);
  }

  /** Reads {@code hours=0.8 landings=1.25}. */
  public static Utilisation parse(String text) {
    Utilisation rates = NONE;
    for (String part : text.strip().split(" +")) {
      if (!part.isEmpty()) {
        String[] sides = part.split("=", 2);
        rates = rates.with(Counter.parse(sides[0]), sides.length < 2 ? "" : sides[1]);
      }
    }
    return rates;
  }

  /** Reads one rate, in ten-thousandths. */
  public static long parseRate(String text) {
    if (!FORM.matcher(text).matches()) {
      throw new IllegalArgumentException(
          text.startsWith("-")
              ? "must not be negative"
              : "must be a decimal with at most four places such as 0.8");
    }
    long rate = new BigDecimal(text).movePointRight(4).longValueExact();
    if (rate > Unit.MOST_COUNT * 10_000) {
      throw new IllegalArgumentException("must be at most 10,000,000");
    }
    return rate;
  }

  public Utilisation with(Counter counter, String rate) {
    SortedMap<Counter, Long> map = new TreeMap<>(tenThousandths.toMap());
    map.put(counter, parseRate(rate));
    return new Utilisation(new Tally(map));
  }

  /** The rate of a counter in ten-thousandths a day, or {@link Scale#UNKNOWN}. */
  public long rate(Counter counter) {
    return tenThousandths.of(counter);
  }

  /**
   * The day on which what is left will be used up, or null for never: the rate is zero or absent,
   * or the day is past the year 9999. Nothing left: today.
   */
  LocalDate usedUp(Counter counter, long left, LocalDate today) {
    if (left <= 0) {
      return today;
    }
    long rate = rate(counter);
    if (rate == Scale.UNKNOWN || rate == 0) {
      return null;
    }
    long usedADay = counter.inHours() ? rate * 3_600 : rate;
    long days = -Math.floorDiv(-left * 10_000, usedADay);
    long day = today.toEpochDay() + days;
    return day > LAST_DAY ? null : LocalDate.ofEpochDay(day);
  }

  /** The text which {@link #parse} reads back. */
  @Override
  public String toString() {
    StringJoiner text = new StringJoiner(" ");
    tenThousandths.toMap().forEach((counter, rate) -> text.add(counter + "=" + show(rate)));
    return text.toString();
  }

  private static String show(long rate) {
    return BigDecimal.valueOf(rate, 4).stripTrailingZeros().toPlainString();
  }
}
