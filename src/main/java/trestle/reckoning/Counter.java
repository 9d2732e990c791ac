package trestle.reckoning;

import java.util.regex.Pattern;

/**
 * A counter of use, by name: {@code hours}, {@code landings}, {@code engine-cycles}. One named
 * {@code hours} or ending in {@code -hours} is in hours; every other one counts whole numbers.
 */
public record Counter(String name) implements Scale, Comparable<Counter> {

  private static final Pattern FORM = Pattern.compile("[a-z][a-z0-9-]{0,39}");

  public static final Counter HOURS = new Counter("hours");
  public static final Counter LANDINGS = new Counter("landings");

  public Counter {
    if (!isName(name)) {
      throw new IllegalArgumentException(
          "must be 1 to 40 small letters, digits and hyphens, and start with a letter");
    }
  }

  public static Counter parse(String name) {
    return new Counter(name);
  }

  /** Whether the text has the form of a counter's (and an origin's) name. */
  public static boolean isName(String text) {
    return FORM.matcher(text).matches();
  }

  public boolean inHours() {
    return name.equals("hours") || name.endsWith("-hours");
  }

  public Unit unit() {
    return inHours() ? Unit.HOURS : Unit.COUNT;
  }

  /** An amount of this counter, from its text. */
  public Amount amount(String text) {
    return Amount.parse(text, unit());
  }

  @Override
  public long pointOf(Reading reading) {
    return reading.usage().units(this);
  }

  @Override
  public int compareTo(Counter other) {
    return name.compareTo(other.name);
  }

  @Override
  public String toString() {
    return name;
  }
}
