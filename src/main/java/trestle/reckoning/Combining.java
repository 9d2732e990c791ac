package trestle.reckoning;

import java.time.LocalDate;
import java.util.List;

/** How the outcomes of a group's entries make the group's own. */
final class Combining {

  private final boolean first;
  private final List<Outcome> entries;

  private Combining(boolean first, List<Outcome> entries) {
    this.first = first;
    this.entries = entries;
  }

  static Reckoning of(Group.Combine combine, List<Outcome> entries) {
    Combining combining = new Combining(combine == Group.Combine.FIRST, entries);
    State state = combining.state();
    return new Reckoning(
        state, combining.spent(), combining.projectedOn(), combining.leading(state), entries);
  }

  /**
   * The worst state under first, the best under last. An unknown entry leaves the group unknown
   * unless it could not change the answer: one is overdue under first, one is ahead under last.
   */
  private State state() {
    State known = null;
    boolean unknown = false;
    for (int i = 0; i < entries.size(); i++) {
      State state = entries.get(i).state();
      if (state == State.UNKNOWN) {
        unknown = true;
      } else if (known == null
          || (first ? state.compareTo(known) > 0 : state.compareTo(known) < 0)) {
        known = state;
      }
    }
    return unknown && known != (first ? State.OVERDUE : State.AHEAD) ? State.UNKNOWN : known;
  }

  private boolean spent() {
    for (int i = 0; i < entries.size(); i++) {
      if (entries.get(i).spent() == first) {
        return first;
      }
    }
    return !first;
  }

  /** The earliest known under first; the latest under last, and none if any has none. */
  private LocalDate projectedOn() {
    LocalDate chosen = null;
    for (int i = 0; i < entries.size(); i++) {
      LocalDate date = entries.get(i).projectedOn();
      if (date == null) {
        if (!first) {
          return null;
        }
      } else if (chosen == null || (first ? date.isBefore(chosen) : date.isAfter(chosen))) {
        chosen = date;
      }
    }
    return chosen;
  }

  /** The controlling entry: an unknown one where that leaves the group unknown. */
  private int leading(State state) {
    int leading = -1;
    for (int i = 0; i < entries.size(); i++) {
      boolean asked = (entries.get(i).state() == State.UNKNOWN) == (state == State.UNKNOWN);
      if (asked && (leading < 0 || bitesBefore(entries.get(i), entries.get(leading)))) {
        leading = i;
      }
    }
    return leading;
  }

  private boolean bitesBefore(Outcome entry, Outcome other) {
    int late = entry.state().lateness() - other.state().lateness();
    if (late != 0) {
      return first == late > 0;
    }
    int later = compareDates(entry.projectedOn(), other.projectedOn());
    return first ? later < 0 : later > 0;
  }

  /** No date counts as the latest. */
  private static int compareDates(LocalDate one, LocalDate other) {
    if (one == null || other == null) {
      return Boolean.compare(one == null, other == null);
    }
    return one.compareTo(other);
  }
}
