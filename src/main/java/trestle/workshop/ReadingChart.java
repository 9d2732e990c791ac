package trestle.workshop;

import java.math.BigDecimal;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Readings of one place over the days: a point for each, a rule at the limit. The same figures
 * stand in the table beside it.
 *
 * @param limitY where the limit's rule runs in per cent of the height, or null without one
 */
record ReadingChart(List<Point> points, String limitY, String words) {

  /** A point's place in per cent of width and height. */
  record Point(String x, String y, boolean over) {}

  /**
   * @param series of one kind and place, oldest first
   * @return null where there are fewer than two figures
   */
  static ReadingChart of(List<ReadingSheet> series, ReadingVerdict.Limit limit) {
    List<ReadingSheet> told = series.stream().filter(one -> one.value() != null).toList();
    if (told.size() < 2) {
      return null;
    }
    BigDecimal rule = limit == null ? null : limit.least() == null ? limit.most() : limit.least();
    double most = told.stream().mapToDouble(one -> one.value().doubleValue()).max().orElse(1);
    double height = Math.max(1, Math.max(most, rule == null ? 0 : rule.doubleValue()) * 1.15);
    ReadingSheet first = told.get(0);
    ReadingSheet last = told.get(told.size() - 1);
    long days = Math.max(1, ChronoUnit.DAYS.between(first.on(), last.on()));
    List<Point> points = new ArrayList<>();
    for (ReadingSheet one : told) {
      points.add(
          new Point(
              percent(4 + 92.0 * ChronoUnit.DAYS.between(first.on(), one.on()) / days),
              percent(100 - 100 * one.value().doubleValue() / height),
              ReadingVerdict.of(one, limit).isBad()));
    }
    return new ReadingChart(
        points,
        rule == null ? null : percent(100 - 100 * rule.doubleValue() / height),
        told.size()
            + " readings, the first "
            + ReadingSheet.plain(first.value())
            + ", the last "
            + ReadingSheet.plain(last.value())
            + " "
            + first.kind().unit());
  }

  private static String percent(double place) {
    return String.format(Locale.ROOT, "%.1f%%", place);
  }
}
