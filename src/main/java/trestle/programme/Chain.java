package trestle.programme;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToLongFunction;

/** The revisions of one requirement, oldest first, and which of them is in force on a day. */
record Chain<T>(List<T> revisions, Function<T, LocalDate> inForceFrom) {

  static <T> Chain<T> of(
      List<T> revisions, Function<T, LocalDate> inForceFrom, ToLongFunction<T> sequence) {
    return new Chain<>(
        revisions.stream().sorted(Comparator.comparingLong(sequence)).toList(), inForceFrom);
  }

  /** The last one filed among those in force by then, or null when none is yet. */
  T inForce(LocalDate day) {
    for (int i = revisions.size() - 1; i >= 0; i--) {
      if (!inForceFrom.apply(revisions.get(i)).isAfter(day)) {
        return revisions.get(i);
      }
    }
    return null;
  }

  /** The one in force, or the first for work that was done before any was. */
  T judging(LocalDate day) {
    T inForce = inForce(day);
    return inForce == null ? revisions.get(0) : inForce;
  }

  /** Only those that a subject was bound by; all of them where it was bound by none. */
  Chain<T> upTo(Predicate<T> bound) {
    if (revisions.stream().allMatch(bound)) {
      return this;
    }
    List<T> some = revisions.stream().filter(bound).toList();
    return some.isEmpty() ? this : new Chain<>(some, inForceFrom);
  }

  T latest() {
    return revisions.get(revisions.size() - 1);
  }
}
