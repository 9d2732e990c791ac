package trestle.workshop;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.web.Shown;

/** What one order was estimated at, and what it cost so far. */
public record Costing(List<Sum> sums) {
  private static final BigDecimal AN_HOUR = BigDecimal.valueOf(60);

  /**
   * One sum.
   *
   * @param minutes of labour, else null
   * @param rate of an hour of it, else null
   * @param line its ordinal where it is of one line, else null
   */
  public record Sum(
      UUID id,
      boolean estimate,
      CostKind kind,
      String words,
      Integer minutes,
      BigDecimal rate,
      BigDecimal amount,
      String currency,
      Integer line,
      LocalDate on) {

    /** "90 minutes at 85.00 an hour", or "". */
    public String reckoned() {
      return minutes == null
          ? ""
          : Shown.plural(minutes, "minute") + " at " + rate.toPlainString() + " an hour";
    }
  }

  /** Estimate against actual; actual less estimate where both are known. */
  public record Compared(
      String label, BigDecimal estimate, BigDecimal actual, BigDecimal difference) {}

  /** Labour by the minute, to two decimals, half up. */
  static BigDecimal labour(int minutes, BigDecimal rate) {
    return rate.multiply(BigDecimal.valueOf(minutes)).divide(AN_HOUR, 2, RoundingMode.HALF_UP);
  }

  /** How long a line took so far, in minutes. */
  public int minutesOf(int line) {
    return actuals().stream()
        .filter(sum -> sum.minutes() != null && Integer.valueOf(line).equals(sum.line()))
        .mapToInt(Sum::minutes)
        .sum();
  }

  public List<Sum> estimates() {
    return sums.stream().filter(Sum::estimate).toList();
  }

  public List<Sum> actuals() {
    return sums.stream().filter(sum -> !sum.estimate()).toList();
  }

  /** "" while there is no sum. */
  public String currency() {
    return sums.isEmpty() ? "" : sums.get(0).currency();
  }

  /** A row a kind, and the total last. */
  public List<Compared> compared() {
    List<Compared> rows = new ArrayList<>();
    for (CostKind kind : CostKind.values()) {
      rows.add(row(kind.label(), sums.stream().filter(sum -> sum.kind() == kind).toList()));
    }
    rows.add(row("In all", sums));
    return rows;
  }

  private static Compared row(String label, List<Sum> sums) {
    BigDecimal estimate = total(sums, true);
    BigDecimal actual = total(sums, false);
    return new Compared(label, estimate, actual, actual.subtract(estimate));
  }

  private static BigDecimal total(List<Sum> sums, boolean estimate) {
    return sums.stream()
        .filter(sum -> sum.estimate() == estimate)
        .map(Sum::amount)
        .reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
  }
}
