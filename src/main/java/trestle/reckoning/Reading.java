package trestle.reckoning;

import java.time.LocalDate;
import java.util.Objects;

/**
 * What the calendar and the counters said when something happened: work done, an overhaul, a
 * fitment.
 *
 * @param on the day, or null where it is not known
 * @param usage the totals that are known
 */
public record Reading(LocalDate on, Usage usage) {

  public Reading {
    Objects.requireNonNull(usage, "usage");
  }

  public static Reading on(LocalDate day) {
    return new Reading(day, Usage.NONE);
  }

  /** Reads {@code 2025-03-11 hours=1106}; {@code - hours=1106} where the day is not known. */
  public static Reading parse(String text) {
    String[] parts = text.strip().split(" +", 2);
    return new Reading(
        parts[0].equals("-") ? null : LocalDate.parse(parts[0]),
        Usage.parse(parts.length < 2 ? "" : parts[1]));
  }

  /** The text which {@link #parse} reads back. */
  @Override
  public String toString() {
    return ((on == null ? "-" : on) + " " + usage).strip();
  }
}
