package trestle.flights;

import java.util.Locale;

/** How a flight may fail to follow on from the one before it. */
public enum BreakKind {
  /** The meter opens above the closing before it: something may have been flown in between. */
  GAP("Gap"),
  /** It took off before another had landed. */
  OVERLAP("Overlap"),
  /** The meter reads less than it did before. */
  METER_BACKWARDS("Meter backwards"),
  /** It left from another place than the one before it arrived at. Shown, and no more. */
  PLACE("Place");

  private final String title;

  BreakKind(String title) {
    this.title = title;
  }

  public String title() {
    return title;
  }

  /** Whether it makes the flight disputed: two records can't both be right. */
  public boolean disputes() {
    return this == OVERLAP || this == METER_BACKWARDS;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static BreakKind parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }
}
