package trestle.overview;

import java.time.LocalDate;
import java.util.List;
import org.apache.commons.statistics.distribution.GammaDistribution;

/**
 * How unevenly an aircraft is flown: the mean and the standard deviation of its hours a week. What
 * is flown in some days is taken as gamma distributed, which is never negative; a date by use then
 * falls within a range in nine cases of ten, rather than on a day.
 *
 * @param mean hours a week
 * @param deviation the sample's standard deviation, hours a week
 */
record Spread(double mean, double deviation) {
  /** Fewer weeks say nothing of how they differ. */
  static final int LEAST_WEEKS = 6;

  private static final double EARLY = 0.05;
  private static final double LATE = 0.95;
  private static final int LONGEST_DAYS = 3 * 366;

  /** Of the hours of whole weeks; null when there are too few of them, or all are alike. */
  static Spread of(List<Double> weeks) {
    int count = weeks.size();
    double mean = weeks.stream().mapToDouble(each -> each).average().orElse(0);
    double squares = weeks.stream().mapToDouble(each -> (each - mean) * (each - mean)).sum();
    double deviation = count > 1 ? Math.sqrt(squares / (count - 1)) : 0;
    return count < LEAST_WEEKS || mean <= 0 || deviation <= 0 ? null : new Spread(mean, deviation);
  }

  /** The same unevenness about another mean: hours a day that a person states. */
  Spread at(double perDay) {
    return new Spread(perDay * 7, deviation * perDay * 7 / mean);
  }

  /** The chance that so many hours are flown within some days. */
  double chance(double hours, int days) {
    if (hours <= 0) {
      return 1;
    }
    if (days <= 0) {
      return 0;
    }
    double scale = deviation * deviation / mean;
    double shape = mean * days / 7 / scale;
    return GammaDistribution.of(shape, scale).survivalProbability(hours);
  }

  /** The first day on which it is one in twenty that the hours are used up; null: not for years. */
  LocalDate earliest(double hours, LocalDate today) {
    return dayOf(hours, EARLY, today);
  }

  /** The first day by which nineteen in twenty say that the hours are used up. */
  LocalDate latest(double hours, LocalDate today) {
    return dayOf(hours, LATE, today);
  }

  private LocalDate dayOf(double hours, double chance, LocalDate today) {
    if (chance(hours, LONGEST_DAYS) < chance) {
      return null;
    }
    int low = 0;
    int high = LONGEST_DAYS;
    while (low < high) {
      int middle = (low + high) / 2;
      if (chance(hours, middle) >= chance) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return today.plusDays(low);
  }
}
