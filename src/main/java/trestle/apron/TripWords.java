package trestle.apron;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import trestle.reckoning.Amount;
import trestle.reckoning.Counter;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Limit;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Scale;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.web.Shown;

/** Why an item does not last a trip, in words: what is left rounded down, what is used up. */
record TripWords(HoursStyle style, Trip trip) {

  /** "4.5 h left, and the trip takes 6.0 h by the end of leg 2". */
  String why(DueItem item, Lasting lasting, int leg) {
    List<String> each = new ArrayList<>();
    for (LimitReckoning limit : lasting.limits(item, leg, Lasting.Answer.OUT)) {
      each.add(why(limit, leg));
    }
    return String.join(", and ", new LinkedHashSet<>(each));
  }

  /** ": the trip's cycles are not stated; 12 cycles left." */
  String unknown(DueItem item, Lasting lasting) {
    if (!item.missing().isEmpty()) {
      return " can’t be told. " + String.join(" ", item.missing());
    }
    Set<String> each = new LinkedHashSet<>();
    for (int leg = 1; leg <= trip.legs().size(); leg++) {
      for (LimitReckoning limit : lasting.limits(item, leg, Lasting.Answer.UNKNOWN)) {
        each.add(unknown(limit));
      }
    }
    return " can’t be told: " + String.join(", and ", each) + ".";
  }

  /** " falls due on leg 2: from there only in its tolerance, to reach the place of work." */
  String inTolerance(DueItem item, int leg) {
    String condition = item.toleranceCondition();
    return " is past due from leg "
        + leg
        + ": only in its tolerance"
        + (condition.isBlank() ? "" : ", " + condition)
        + ".";
  }

  String not(String forbids) {
    return new InWords(style).not(forbids);
  }

  private String why(LimitReckoning limit, int leg) {
    if (limit.limit() instanceof Limit.With) {
      return "due with other work that runs out then";
    }
    if (limit.spent()) {
      return "past its limit already";
    }
    if (limit.isByCalendar()) {
      LocalDate last = LocalDate.ofEpochDay(Lasting.lastGood(limit));
      return "good to "
          + Shown.date(last)
          + ", and leg "
          + leg
          + " is on "
          + Shown.date(trip.legs().get(leg - 1).on());
    }
    long left = left(limit);
    long used = trip.used(limit.counter(), leg);
    return used <= left
        ? amount(limit, left, true) + " left, all taken before leg " + leg
        : amount(limit, left, true)
            + " left, and the trip takes "
            + amount(limit, used, false)
            + (leg == 1 ? " on leg 1" : " by the end of leg " + leg);
  }

  private String unknown(LimitReckoning limit) {
    if (limit.limit() instanceof Limit.With) {
      return "it is due with other work, which is not known";
    }
    if (limit.remaining() == Scale.UNKNOWN) {
      return "what is left is not known";
    }
    return "the trip’s "
        + name(limit.counter())
        + " are not stated; "
        + amount(limit, left(limit), true)
        + " left";
  }

  private static long left(LimitReckoning limit) {
    return Lasting.lastGood(limit) - (limit.due() - limit.remaining());
  }

  private String amount(LimitReckoning limit, long units, boolean left) {
    Counter counter = limit.counter();
    if (counter.inHours()) {
      Amount hours = new Amount(units, counter.unit());
      return (left ? style.left(hours.hours()) : style.used(hours.hours())) + " h";
    }
    return Shown.plural(units, name(counter).replaceFirst("s$", ""));
  }

  private static String name(Counter counter) {
    return counter.name().replace('-', ' ');
  }
}
