package trestle.apron;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
import trestle.reckoning.State;
import trestle.standing.DueItem;

/**
 * The next inspection, and what does not wait for it. By the dates that are projected where rates
 * of use are known; without a rate by what is left, hours against hours and days against days.
 *
 * @param inspections those of the aircraft as a whole
 * @param seconds of time in service until an inspection is due, the least of all; null if unknown
 * @param days until one is due; null if unknown
 * @param on the date on which one is projected; null where some rate is not known
 */
record Phase(Set<DueItem> inspections, Long seconds, Long days, LocalDate on) {

  static Phase of(List<DueItem> items) {
    Set<DueItem> inspections = Inspections.whole(items);
    boolean rated = inspections.stream().noneMatch(DueItem::rateUnknown);
    return new Phase(
        inspections,
        least(inspections, Lefts::seconds),
        least(inspections, Lefts::days),
        rated ? least(inspections, item -> item.reckoning().projectedOn()) : null);
  }

  /** Whether it falls due before the next inspection does. */
  boolean isOut(DueItem item) {
    if (inspections.contains(item)) {
      return false;
    }
    LocalDate due = item.rateUnknown() ? null : item.reckoning().projectedOn();
    if (due != null && on != null && !due.equals(on)) {
      return due.isBefore(on);
    }
    return isLess(Lefts.seconds(item), seconds) || isLess(Lefts.days(item), days);
  }

  /**
   * Keeps what is spent, late or not known on top, as it stood; then what does not wait for the
   * next inspection; then the rest. What has no projected date goes by the hours left.
   */
  Comparator<DueItem> bitesFirst() {
    return Comparator.comparing((DueItem item) -> isPressing(item) ? 0 : isOut(item) ? 1 : 2)
        .thenComparing(Phase::unprojected);
  }

  private static boolean isPressing(DueItem item) {
    return item.reckoning().spent() || item.state() != State.AHEAD && item.state() != State.SOON;
  }

  private static long unprojected(DueItem item) {
    if (isPressing(item) || item.reckoning().projectedOn() != null) {
      return -1;
    }
    Long left = Lefts.seconds(item);
    return left == null ? Long.MAX_VALUE : left;
  }

  private static boolean isLess(Long left, Long than) {
    return left != null && than != null && left < than;
  }

  private static <T extends Comparable<? super T>> T least(
      Set<DueItem> items, Function<DueItem, T> told) {
    return items.stream()
        .map(told)
        .filter(Objects::nonNull)
        .min(Comparator.naturalOrder())
        .orElse(null);
  }
}
