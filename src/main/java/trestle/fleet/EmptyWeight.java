package trestle.fleet;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;

/**
 * What an empty aircraft weighs and where its centre of gravity lies, entry by entry: a weighing
 * begins anew, a change adds its weight and its moment. Moments (weight times arm from the datum)
 * are summed exactly; only the arm that is shown is rounded, to three digits, half to even.
 */
public record EmptyWeight(List<Line> lines) {
  private static final int DIGITS = 3;

  public EmptyWeight {
    lines = List.copyOf(lines);
  }

  /**
   * One entry as filed.
   *
   * @param weighing whether it states the whole; otherwise {@code weight} is added, or taken away
   *     where it is negative
   * @param arm from the datum, negative ahead of it
   */
  public record Entry(
      UUID id,
      LocalDate on,
      boolean weighing,
      String what,
      BigDecimal weight,
      BigDecimal arm,
      String weightUnit,
      String armUnit,
      String reference) {

    public BigDecimal moment() {
      return weight.multiply(arm);
    }

    boolean hasUnitsOf(Entry other) {
      return weightUnit.equals(other.weightUnit) && armUnit.equals(other.armUnit);
    }
  }

  /** An entry with what the empty aircraft weighs after it. */
  public record Line(Entry entry, BigDecimal weight, BigDecimal moment) {

    /** The centre of gravity; null while the weights cancel out. */
    public BigDecimal arm() {
      return weight.signum() == 0 ? null : moment.divide(weight, DIGITS, RoundingMode.HALF_EVEN);
    }
  }

  /**
   * From entries in the order in which they happened.
   *
   * @throws IllegalArgumentException when a change comes before any weighing, is in other units, or
   *     leaves less than nothing
   */
  public static EmptyWeight of(List<Entry> entries) {
    List<Line> lines = new ArrayList<>();
    for (Entry entry : entries) {
      lines.add(lines.isEmpty() || entry.weighing() ? first(entry) : next(last(lines), entry));
    }
    return new EmptyWeight(lines);
  }

  /** How it stands, or null before the first weighing. */
  public Line now() {
    return lines.isEmpty() ? null : last(lines);
  }

  private static Line first(Entry entry) {
    if (!entry.weighing()) {
      throw new IllegalArgumentException("A change needs a weighing before it.");
    }
    return new Line(entry, entry.weight(), entry.moment());
  }

  private static Line next(Line before, Entry entry) {
    if (!entry.hasUnitsOf(before.entry())) {
      throw new IllegalArgumentException(
          "The change must be in the units of the weighing: %s and %s."
              .formatted(before.entry().weightUnit(), before.entry().armUnit()));
    }
    BigDecimal weight = before.weight().add(entry.weight());
    if (weight.signum() <= 0) {
      throw new IllegalArgumentException("The change takes away more than there is.");
    }
    return new Line(entry, weight, before.moment().add(entry.moment()));
  }

  private static Line last(List<Line> lines) {
    return lines.get(lines.size() - 1);
  }
}
