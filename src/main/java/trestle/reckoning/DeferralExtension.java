package trestle.reckoning;

import java.time.LocalDate;
import java.util.Optional;
import java.util.Set;
import trestle.reckoning.DeferralClock.Category;

/**
 * Which deferrals a rule profile lets be extended, and how often; each time by no more than the
 * category's own interval.
 */
public record DeferralExtension(Set<Category> categories, int times) {

  /** Why an extension is refused. */
  public enum Refused {
    CATEGORY,
    TIMES,
    LENGTH
  }

  public DeferralExtension {
    categories = Set.copyOf(categories);
  }

  /** Why a new last day is refused, or empty where it may be granted. */
  public Optional<Refused> check(
      Category category, int extendedBefore, LocalDate lastDay, LocalDate newLastDay) {
    if (category.days().isEmpty() || !categories.contains(category)) {
      return Optional.of(Refused.CATEGORY);
    }
    if (extendedBefore >= times) {
      return Optional.of(Refused.TIMES);
    }
    return newLastDay.isAfter(latest(category, lastDay))
        ? Optional.of(Refused.LENGTH)
        : Optional.empty();
  }

  /** The latest last day an extension may give. */
  public static LocalDate latest(Category category, LocalDate lastDay) {
    return DeferralClock.lastDay(lastDay, category);
  }
}
