package trestle.workshop;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import trestle.web.Option;

/** What is read in work, in which unit, and the most that such a thing can read at all. */
public enum ReadingKind {
  COMPRESSION("Differential compression", "psi", 120),
  MAGNETO_DROP("Magneto drop", "rpm", 1_000),
  PRESSURE("Pressure", "psi", 10_000),
  TORQUE("Torque", "N·m", 5_000),
  FILTER("Filter or screen", "", 0);

  private final String label;
  private final String unit;
  private final BigDecimal most;

  ReadingKind(String label, String unit, int most) {
    this.label = label;
    this.unit = unit;
    this.most = BigDecimal.valueOf(most);
  }

  public String label() {
    return label;
  }

  public String unit() {
    return unit;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Whether it is told in words instead of a figure. */
  public boolean inWords() {
    return this == FILTER;
  }

  boolean canBe(BigDecimal value) {
    return value.signum() >= 0 && value.compareTo(most) <= 0;
  }

  String range() {
    return "from 0 to " + most.toPlainString() + " " + unit;
  }

  public static ReadingKind parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  static List<Option> options(boolean measuredOnly) {
    return Arrays.stream(values())
        .filter(kind -> !measuredOnly || !kind.inWords())
        .map(
            kind ->
                new Option(
                    kind.word(), kind.unit.isEmpty() ? kind.label : kind.label + ", " + kind.unit))
        .toList();
  }
}
