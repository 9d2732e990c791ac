package trestle.reckoning;

/**
 * How an aircraft's hours are shown. What is left is rounded down and what is used is rounded up,
 * so that a shown figure never promises more than there is.
 */
public enum HoursStyle {
  TENTHS(360),
  HUNDREDTHS(36),
  MINUTES(60);

  private final long step;

  HoursStyle(long step) {
    this.step = step;
  }

  /** What is left, rounded down (also below zero: 0.05 h past due shows as -0.1). */
  public String left(Hours hours) {
    return show(Math.floorDiv(hours.seconds(), step));
  }

  /** What is used, rounded up. */
  public String used(Hours hours) {
    return show(-Math.floorDiv(-hours.seconds(), step));
  }

  private String show(long steps) {
    String sign = steps < 0 ? "-" : "";
    long size = Math.abs(steps);
    return switch (this) {
      case TENTHS -> sign + grouped(size / 10) + "." + size % 10;
      case HUNDREDTHS -> sign + grouped(size / 100) + "." + Hours.twoDigits(size % 100);
      case MINUTES -> sign + grouped(size / 60) + ":" + Hours.twoDigits(size % 60);
    };
  }

  static String grouped(long whole) {
    StringBuilder text = new StringBuilder(Long.toString(whole));
    for (int i = text.length() - 3; i > 0; i -= 3) {
      text.insert(i, ',');
    }
    return text.toString();
  }
}
