package trestle.flights;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Fleet.MeterChangeSheet;
import trestle.fleet.HoursBasis;
import trestle.fleet.HoursRules;

/**
 * An aircraft's flights in their order: what each adds to the counters, and where one does not
 * follow on from another. Pure: the same flights give the same answer, however they came in.
 *
 * <p>What one flight adds and breaks depends on that flight, on the two flights with meter readings
 * before it and those between, on the flight before it, and on those it overlaps; so that a late
 * flight or a correction reaches no further than that.
 */
final class Sequence {

  /** A gap of this size before this entry was explained as not flown. */
  record NotFlown(UUID entryId, long amount) {}

  private final List<Leg> legs;
  private final List<MeterChangeSheet> meterChanges;
  private final HoursRules rules;
  private final Set<NotFlown> notFlown;
  private final List<Step> steps = new ArrayList<>();
  private final List<Break> breaks = new ArrayList<>();

  /**
   * @param legs one aircraft's current flights
   * @param meterChanges oldest first
   */
  Sequence(
      List<Leg> legs,
      List<MeterChangeSheet> meterChanges,
      HoursRules rules,
      Set<NotFlown> notFlown) {
    this.legs = new ArrayList<>(legs);
    this.legs.sort(Leg.ORDER);
    this.meterChanges = meterChanges;
    this.rules = rules;
    this.notFlown = notFlown;
    for (int at = 0; at < this.legs.size(); at++) {
      walk(at);
    }
  }

  List<Step> steps() {
    return steps;
  }

  List<Break> breaks() {
    return breaks;
  }

  private void walk(int at) {
    Leg leg = legs.get(at);
    long gap = leg.isMetered() ? continuity(at) : 0;
    overlap(at);
    place(at);
    boolean flown = gap > 0 && !notFlown.contains(new NotFlown(leg.entryId(), gap));
    steps.add(step(leg, flown ? gap : 0));
  }

  private Step step(Leg leg, long gap) {
    boolean blocks = leg.offBlocks() != null && leg.onBlocks() != null;
    long flightHours = blocks ? rounded(leg, leg.onBlocks() - leg.offBlocks()) + gap : 0;
    return new Step(
        leg.entryId(),
        leg.aircraftId(),
        leg.day(),
        leg.landing(),
        hours(leg) + gap,
        blocks ? flightHours : null,
        leg.landings(),
        leg.cycles(),
        leg.others());
  }

  /** The flight's own time in service; by its times where the meter ran backwards or says none. */
  private long hours(Leg leg) {
    return hours(leg, meterChanges, rules);
  }

  static long hours(Leg leg, List<MeterChangeSheet> meterChanges, HoursRules rules) {
    HoursRules.HoursRule rule = rules.at(Instant.ofEpochSecond(leg.landing()));
    if (rule.basis() == HoursBasis.METER && leg.isMetered()) {
      MeterRun run = MeterRun.during(leg, meterChanges);
      if (run.backward() == 0) {
        return rule.rounding().of(run.forward());
      }
    }
    return rule.rounding().of(leg.landing() - leg.takeOff());
  }

  private long rounded(Leg leg, long seconds) {
    return rules.at(Instant.ofEpochSecond(leg.landing())).rounding().of(seconds);
  }

  /**
   * Compares the opening reading with the closing before it, and answers the gap.
   *
   * <p>Flights between that gave no reading are taken out of the gap. A flight whose own readings
   * fell back is not trusted where this one follows on from the flight before that.
   */
  private long continuity(int at) {
    Leg leg = legs.get(at);
    long backward = MeterRun.during(leg, meterChanges).backward();
    int before = meteredBefore(at);
    long gap = 0;
    if (before >= 0) {
      int compared = trustedBefore(at, before);
      MeterRun run = fromClosing(compared, leg);
      backward += run.backward();
      gap = Math.max(0, run.forward() - hoursBetween(compared, at));
      if (gap > 0) {
        broken(leg, BreakKind.GAP, legs.get(compared), gap);
      }
    }
    if (backward > 0) {
      broken(leg, BreakKind.METER_BACKWARDS, before < 0 ? null : legs.get(before), backward);
    }
    return gap;
  }

  private int trustedBefore(int at, int before) {
    int earlier = meteredBefore(before);
    boolean doubtful =
        earlier >= 0
            && (MeterRun.during(legs.get(before), meterChanges).backward() > 0
                || fromClosing(earlier, legs.get(before)).backward() > 0);
    return doubtful && fromClosing(earlier, legs.get(at)).backward() == 0 ? earlier : before;
  }

  private MeterRun fromClosing(int earlier, Leg leg) {
    Leg closed = legs.get(earlier);
    return MeterRun.between(
        closed.meterIn(), closed.landing(), leg.meterOut(), leg.takeOff(), meterChanges);
  }

  private int meteredBefore(int at) {
    int before = at - 1;
    while (before >= 0 && !legs.get(before).isMetered()) {
      before--;
    }
    return before;
  }

  private long hoursBetween(int earlier, int at) {
    long hours = 0;
    for (int between = earlier + 1; between < at; between++) {
      hours += hours(legs.get(between));
    }
    return hours;
  }

  private void overlap(int at) {
    Leg leg = legs.get(at);
    Leg last = null;
    long earliest = leg.takeOff() - FlightDraft.LONGEST.toSeconds();
    for (int before = at - 1; before >= 0 && legs.get(before).takeOff() >= earliest; before--) {
      Leg earlier = legs.get(before);
      if (earlier.landing() > leg.takeOff()
          && (last == null || earlier.landing() > last.landing())) {
        last = earlier;
      }
    }
    if (last != null) {
      long amount = Math.min(last.landing(), leg.landing()) - leg.takeOff();
      broken(leg, BreakKind.OVERLAP, last, amount);
    }
  }

  private void place(int at) {
    if (at > 0 && !placeKey(legs.get(at - 1).to()).equals(placeKey(legs.get(at).from()))) {
      broken(legs.get(at), BreakKind.PLACE, legs.get(at - 1), null);
    }
  }

  private static String placeKey(String place) {
    return place.strip().replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
  }

  private void broken(Leg leg, BreakKind kind, Leg earlier, Long amount) {
    breaks.add(
        new Break(leg.id(), leg.aircraftId(), kind, earlier == null ? null : earlier.id(), amount));
  }
}
