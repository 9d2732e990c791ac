package trestle.reckoning;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Time in service, exact, in whole seconds; negative only as a difference (what is left once past
 * due). Never floating point: ten times 0.1 h is 1.0 h.
 */
public record Hours(long seconds) implements Comparable<Hours> {

  public static final Hours ZERO = new Hours(0);

  /** The most that may be stated: 10,000,000 h. */
  public static final Hours MOST = new Hours(10_000_000L * 3600);

  private static final Pattern DECIMAL = Pattern.compile("([0-9]{1,8})(?:\\.([0-9]{1,2}))?");
  private static final Pattern CLOCK =
      Pattern.compile("([0-9]{1,8}):([0-5][0-9])(?::([0-5][0-9]))?");
  private static final Pattern THOUSANDS = Pattern.compile("[0-9]{1,3}(?:[, ][0-9]{3})+(?=[.:]|$)");
  private static final String BLANK = "[\\s\\u00a0\\u2007\\u202f]+";

  /**
   * Reads {@code 1234.5}, {@code 0.25}, {@code 12:30} or {@code 12:30:15}.
   *
   * @throws IllegalArgumentException whose message is a sentence for the person who wrote it
   */
  public static Hours parse(String text) {
    Matcher decimal = DECIMAL.matcher(text);
    if (decimal.matches()) {
      return checked(Long.parseLong(decimal.group(1)) * 3600 + hundredths(decimal.group(2)) * 36);
    }
    Matcher clock = CLOCK.matcher(text);
    if (clock.matches()) {
      return checked(
          Long.parseLong(clock.group(1)) * 3600
              + Long.parseLong(clock.group(2)) * 60
              + (clock.group(3) == null ? 0 : Long.parseLong(clock.group(3))));
    }
    throw new IllegalArgumentException(whyNot(text));
  }

  /**
   * Reads what a person typed: as {@link #parse}, and also a thousands mark ({@code 1,234.5}) and
   * stray blanks.
   */
  public static Hours parseTyped(String typed) {
    String text = typed.replaceAll(BLANK, " ").strip().replaceAll(" ?([.:,]) ?", "$1");
    Matcher thousands = THOUSANDS.matcher(text);
    if (thousands.lookingAt()) {
      text = thousands.group().replaceAll("[, ]", "") + text.substring(thousands.end());
    }
    return parse(text);
  }

  /** To the nearest tenth, as a logbook kept in tenths takes each flight; 3 minutes go up. */
  public Hours toTenth() {
    return new Hours(Math.floorDiv(seconds + 180, 360) * 360);
  }

  public Hours plus(Hours other) {
    return new Hours(Math.addExact(seconds, other.seconds));
  }

  public Hours minus(Hours other) {
    return new Hours(Math.subtractExact(seconds, other.seconds));
  }

  @Override
  public int compareTo(Hours other) {
    return Long.compare(seconds, other.seconds);
  }

  /**
   * Exact: a decimal without trailing zeros when it is a whole number of hundredths, else h:mm,
   * else h:mm:ss.
   */
  @Override
  public String toString() {
    String sign = seconds < 0 ? "-" : "";
    long size = Math.abs(seconds);
    if (size % 36 == 0) {
      return sign + decimal(size / 36);
    }
    String minutes = sign + size / 3600 + ":" + twoDigits(size / 60 % 60);
    return size % 60 == 0 ? minutes : minutes + ":" + twoDigits(size % 60);
  }

  private static Hours checked(long seconds) {
    if (seconds > MOST.seconds) {
      throw new IllegalArgumentException("must be at most 10,000,000 h");
    }
    return new Hours(seconds);
  }

  private static long hundredths(String digits) {
    if (digits == null) {
      return 0;
    }
    return digits.length() == 1 ? Long.parseLong(digits) * 10 : Long.parseLong(digits);
  }

  private static String decimal(long hundredths) {
    long rest = hundredths % 100;
    if (rest == 0) {
      return Long.toString(hundredths / 100);
    }
    return hundredths / 100 + "." + (rest % 10 == 0 ? "" + rest / 10 : twoDigits(rest));
  }

  static String twoDigits(long value) {
    return value < 10 ? "0" + value : Long.toString(value);
  }

  private static String whyNot(String text) {
    if (text.isBlank()) {
      return "is blank: write hours such as 12.5 or 12:30";
    }
    if (text.matches("[-\u2212\u2013].*")) {
      return "must not be negative";
    }
    if (text.matches("[0-9]+:[0-9]{2}(:[0-9]{2})?") && !text.matches("[0-9]{9,}.*")) {
      return "has minutes or seconds above 59";
    }
    if (text.matches("[0-9]{9,}.*")) {
      return "has more than eight digits before the point";
    }
    if (text.matches("[0-9]+\\.[0-9]{3,}")) {
      return "has more than two digits after the point: write hours such as 12.5 or 12:30";
    }
    if (text.matches("[0-9]+,[0-9]+")) {
      return "has a comma that is not a thousands mark: write hours such as 12.5 or 1,234.5";
    }
    return "is not a number of hours: write hours such as 12.5 or 12:30";
  }
}
