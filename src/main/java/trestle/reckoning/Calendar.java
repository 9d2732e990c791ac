package trestle.reckoning;

/** The calendar as a scale: its points are epoch days. */
public enum Calendar implements Scale {
  DAYS;

  @Override
  public long pointOf(Reading reading) {
    return reading.on() == null ? UNKNOWN : reading.on().toEpochDay();
  }
}
