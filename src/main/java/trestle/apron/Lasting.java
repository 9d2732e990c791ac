package trestle.apron;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.IntPredicate;
import trestle.reckoning.Entry;
import trestle.reckoning.Group;
import trestle.reckoning.Limit;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Scale;
import trestle.reckoning.State;
import trestle.standing.DueItem;

/**
 * Whether what falls due lasts each leg of a trip. A limit by use is out on the leg that takes more
 * than is left, or that begins with nothing left; one by the calendar on a leg dated after its last
 * good day. A group is out as the reckoning says it is spent: any entry under first, all under
 * last; and where something needed is not known, the answer is that.
 */
final class Lasting {

  /** In the order of their weight under first. */
  enum Answer {
    GOOD,
    UNKNOWN,
    OUT
  }

  private final Trip trip;
  private final boolean toTolerance;
  private final Map<UUID, Map<String, DueItem>> bySubject = new HashMap<>();

  private Lasting(Trip trip, List<DueItem> items, boolean toTolerance) {
    this.trip = trip;
    this.toTolerance = toTolerance;
    for (DueItem item : items) {
      bySubject
          .computeIfAbsent(item.subject().id(), id -> new HashMap<>())
          .put(item.requirementId().toString(), item);
    }
  }

  /** As far as anything may be flown: to the end of every tolerance. */
  static Lasting toTolerance(Trip trip, List<DueItem> items) {
    return new Lasting(trip, items, true);
  }

  /** As far as the due points themselves. */
  static Lasting toDue(Trip trip, List<DueItem> items) {
    return new Lasting(trip, items, false);
  }

  /** The first leg on which the item is out, or 0. */
  int out(DueItem item) {
    return first(leg -> of(item, leg) == Answer.OUT);
  }

  /** Whether on some leg it can't be told. */
  boolean isUnknown(DueItem item) {
    return first(leg -> of(item, leg) == Answer.UNKNOWN) > 0;
  }

  Answer of(DueItem item, int leg) {
    return of(item, leg, 0);
  }

  /** The limits that are out on a leg, or that can't be told. */
  List<LimitReckoning> limits(DueItem item, int leg, Answer answer) {
    List<LimitReckoning> found = new ArrayList<>();
    collect(item, item.reckoning(), leg, answer, found);
    return found;
  }

  private int first(IntPredicate is) {
    for (int leg = 1; leg <= trip.legs().size(); leg++) {
      if (is.test(leg)) {
        return leg;
      }
    }
    return 0;
  }

  private Answer of(DueItem item, int leg, int depth) {
    if (item.state() == State.DONE) {
      return Answer.GOOD;
    }
    return group(item, reckoned(item), item.reckoning(), leg, depth);
  }

  /** The initial limits hold until the work has been done; a baseline is not a doing. */
  static Group reckoned(DueItem item) {
    boolean done = item.lastDone() != null && !item.lastDone().baseline();
    return done || item.rule().initial() == null ? item.rule().group() : item.rule().initial();
  }

  private Answer group(DueItem item, Group group, Reckoning reckoning, int leg, int depth) {
    boolean first = group.combine() == Group.Combine.FIRST;
    Answer sum = first ? Answer.GOOD : Answer.OUT;
    for (int i = 0; i < group.limits().size(); i++) {
      Answer one = entry(item, group.limits().get(i), reckoning.entries().get(i), leg, depth);
      boolean heavier = one.compareTo(sum) > 0;
      sum = heavier == first ? one : sum;
    }
    return sum;
  }

  private Answer entry(DueItem item, Entry entry, Outcome outcome, int leg, int depth) {
    return outcome instanceof Reckoning inner
        ? group(item, (Group) entry, inner, leg, depth)
        : limit(item, (LimitReckoning) outcome, leg, depth);
  }

  private Answer limit(DueItem item, LimitReckoning limit, int leg, int depth) {
    if (toTolerance && limit.spent()) {
      return Answer.OUT;
    }
    if (limit.limit() instanceof Limit.With with) {
      return companion(item, with, leg, depth);
    }
    if (limit.remaining() == Scale.UNKNOWN) {
      return Answer.UNKNOWN;
    }
    long last = toTolerance ? lastGood(limit) : limit.due();
    return limit.isByCalendar() ? byCalendar(last, leg) : byUse(limit, last, leg);
  }

  private Answer byCalendar(long last, int leg) {
    return trip.legs().get(leg - 1).on().toEpochDay() > last ? Answer.OUT : Answer.GOOD;
  }

  private Answer byUse(LimitReckoning limit, long last, int leg) {
    long before = trip.used(limit.counter(), leg - 1);
    long after = trip.used(limit.counter(), leg);
    if (before == Scale.UNKNOWN || after == Scale.UNKNOWN) {
      return Answer.UNKNOWN;
    }
    long left = last - (limit.due() - limit.remaining());
    return left - before <= 0 || left - after < 0 ? Answer.OUT : Answer.GOOD;
  }

  /** Due with other work on the same subject: it lasts as long as that does. */
  private Answer companion(DueItem item, Limit.With with, int leg, int depth) {
    DueItem other = bySubject.get(item.subject().id()).get(with.requirement());
    boolean round = depth > bySubject.get(item.subject().id()).size();
    return other == null || round ? Answer.UNKNOWN : of(other, leg, depth + 1);
  }

  private void collect(
      DueItem item, Reckoning group, int leg, Answer answer, List<LimitReckoning> found) {
    for (Outcome entry : group.entries()) {
      if (entry instanceof Reckoning inner) {
        collect(item, inner, leg, answer, found);
      } else if (limit(item, (LimitReckoning) entry, leg, 0) == answer) {
        found.add((LimitReckoning) entry);
      }
    }
  }

  /** The last point at which it may be used. */
  static long lastGood(LimitReckoning limit) {
    return ((Limit.Measured) limit.limit()).lastGood(limit.due());
  }
}
