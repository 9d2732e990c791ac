package trestle.reckoning;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/**
 * Until when a deferred defect may be flown with. The day of discovery (the stated day on which the
 * defect was first written up) is left out; the deferral runs out at the end of day N after it, in
 * the operator's time base.
 *
 * @param zone the operator's zone
 * @param inUtc whether days are counted in UTC instead of the operator's zone; fixed once
 */
public record DeferralClock(ZoneId zone, boolean inUtc) {

  /** The origin of a deferral counted in use: the subject's reading when it was deferred. */
  public static final String DEFERRED = "deferred";

  /** Rectification interval categories; A is as its own entry states. */
  public enum Category {
    A(0),
    B(3),
    C(10),
    D(120);

    private final int days;

    Category(int days) {
      this.days = days;
    }

    /** Calendar days after the day of discovery; none for A, which states its own. */
    public Optional<Integer> days() {
      return this == A ? Optional.empty() : Optional.of(days);
    }
  }

  /** The last day of so many calendar days, discovery left out. */
  public static LocalDate lastDay(LocalDate discovery, int days) {
    return discovery.plusDays(days);
  }

  /** The last day of a category B, C or D deferral. */
  public static LocalDate lastDay(LocalDate discovery, Category category) {
    return lastDay(
        discovery,
        category
            .days()
            .orElseThrow(() -> new IllegalArgumentException("category A states its own interval")));
  }

  /**
   * The last of so many flight-days (days on which at least one flight began), discovery left out;
   * empty while fewer have been flown.
   */
  public static Optional<LocalDate> lastFlightDay(
      LocalDate discovery, int flightDays, Collection<LocalDate> flown) {
    List<LocalDate> after = List.copyOf(new TreeSet<>(flown).tailSet(discovery, false));
    return after.size() < flightDays ? Optional.empty() : Optional.of(after.get(flightDays - 1));
  }

  /** Flights, hours or cycles counted from the reading at the deferral, named {@link #DEFERRED}. */
  public static Rule inUse(Counter counter, Amount amount) {
    return Rule.first(
            new Limit.Every(
                counter,
                amount,
                Limit.Ends.ANNIVERSARY,
                DEFERRED,
                null,
                null,
                Limit.Late.RESTART,
                null))
        .onlyOnce();
  }

  /** The first moment past a last day, from which nothing may be flown. */
  public ZonedDateTime runsOutAt(LocalDate lastDay) {
    return lastDay.plusDays(1).atStartOfDay(base());
  }

  /** "23:59 UTC (20:29 local)", or "23:59 local (03:29 UTC the next day)". */
  public String words(LocalDate lastDay) {
    ZonedDateTime end = runsOutAt(lastDay).minusMinutes(1);
    ZonedDateTime other = end.withZoneSameInstant(inUtc ? zone : ZoneOffset.UTC);
    return clock(end, inUtc) + " (" + clock(other, !inUtc) + dayAside(lastDay, other) + ")";
  }

  private ZoneId base() {
    return inUtc ? ZoneOffset.UTC : zone;
  }

  private static String clock(ZonedDateTime moment, boolean utc) {
    LocalTime time = moment.toLocalTime();
    return Hours.twoDigits(time.getHour())
        + ":"
        + Hours.twoDigits(time.getMinute())
        + (utc ? " UTC" : " local");
  }

  private static String dayAside(LocalDate lastDay, ZonedDateTime other) {
    int side = other.toLocalDate().compareTo(lastDay);
    return side == 0 ? "" : side > 0 ? " the next day" : " the day before";
  }
}
