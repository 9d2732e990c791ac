package trestle.apron;

import trestle.reckoning.Counter;
import trestle.reckoning.Group;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Scale;
import trestle.reckoning.State;
import trestle.standing.DueItem;

/** How much is left until an item is due: by hours alone, or by the calendar alone. */
final class Lefts {
  private Lefts() {}

  /** Seconds of time in service, negative once past; null where no hours bound it, or not known. */
  static Long seconds(DueItem item) {
    return left(item, false);
  }

  /** Days, negative once past; null where no date bounds it, or not known. */
  static Long days(DueItem item) {
    return left(item, true);
  }

  private static Long left(DueItem item, boolean byCalendar) {
    return item.state() == State.DONE
        ? null
        : group(Lasting.reckoned(item), item.reckoning(), byCalendar);
  }

  /** Under first the least; under last the most, and nothing where some entry is no such limit. */
  private static Long group(Group group, Reckoning reckoning, boolean byCalendar) {
    boolean first = group.combine() == Group.Combine.FIRST;
    Long left = null;
    for (int i = 0; i < group.limits().size(); i++) {
      Outcome outcome = reckoning.entries().get(i);
      Long one =
          outcome instanceof Reckoning inner
              ? group((Group) group.limits().get(i), inner, byCalendar)
              : limit((LimitReckoning) outcome, byCalendar);
      if (one == null && !first) {
        return null;
      }
      if (one != null) {
        left = left == null ? one : first ? Long.min(left, one) : Long.max(left, one);
      }
    }
    return left;
  }

  private static Long limit(LimitReckoning limit, boolean byCalendar) {
    boolean asked = byCalendar ? limit.isByCalendar() : Counter.HOURS.equals(limit.counter());
    return asked && limit.remaining() != Scale.UNKNOWN ? limit.remaining() : null;
  }
}
