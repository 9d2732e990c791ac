package trestle.reckoning;

import java.time.LocalDate;
import java.util.List;

/**
 * One occurrence of one limit granted a new due point. It takes the place of that occurrence's due
 * point for its state, whether it is spent, and whether it was overrun; the next interval still
 * counts, as {@code late} says, from the scheduled point.
 *
 * @param limit the path of indexes down to the limit, as {@link Reckoning#controlling()} gives it
 * @param afterDoings which occurrence: the one that is due after so many doings in the history, so
 *     the number of doings before the moment at which the extension was granted
 * @param due the new due point on the limit's scale (seconds, a count, an epoch day)
 */
public record Extension(List<Integer> limit, int afterDoings, long due) {

  public Extension {
    limit = List.copyOf(limit);
    if (limit.isEmpty() || afterDoings < 0 || due == Scale.UNKNOWN) {
      throw new IllegalArgumentException("an extension names a limit, an occurrence, a due point");
    }
  }

  public static Extension to(LocalDate day, int afterDoings, List<Integer> limit) {
    return new Extension(limit, afterDoings, day.toEpochDay());
  }

  public static Extension to(Amount total, int afterDoings, List<Integer> limit) {
    return new Extension(limit, afterDoings, total.units());
  }
}
