package trestle.flights;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import trestle.reckoning.Scale;

/**
 * Oil used an hour, drawn over the hours run: a point for each reading, a rule at the limit. The
 * same figures stand in the table beside it.
 *
 * @param limitY where the limit's rule runs in per cent of the height, or null without one
 * @param top the value at the top of the drawing, in words
 */
record OilChart(List<Point> points, String limitY, String top, String words) {

  /** A point's place in per cent of width and height. */
  record Point(String x, String y, boolean over) {}

  static OilChart of(List<OilUse> series, BigDecimal limit) {
    List<OilUse> told =
        series.stream()
            .filter(use -> use.perHour() != null && use.at().units() != Scale.UNKNOWN)
            .toList();
    if (told.size() < 2) {
      return null;
    }
    double most = told.stream().mapToDouble(use -> use.perHour().doubleValue()).max().orElse(1);
    double top = Math.max(most, limit == null ? 0 : limit.doubleValue()) * 1.15;
    double height = top <= 0 ? 1 : top;
    long first = told.get(0).at().units();
    long run = Math.max(1, told.get(told.size() - 1).at().units() - first);
    List<Point> points = new ArrayList<>();
    for (OilUse use : told) {
      points.add(
          new Point(
              percent(4 + 92.0 * (use.at().units() - first) / run),
              percent(100 - 100 * Math.max(0, use.perHour().doubleValue()) / height),
              use.exceeds(limit)));
    }
    return new OilChart(
        points,
        limit == null ? null : percent(100 - 100 * limit.doubleValue() / height),
        String.format(Locale.ROOT, "%.2f", height),
        told.size() + " readings over " + run / 3600 + " hours run");
  }

  private static String percent(double place) {
    return String.format(Locale.ROOT, "%.1f%%", place);
  }
}
