package trestle.fleet;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What an aircraft's time in service was taken from, and how rounded, through time. A revision says
 * how it is from its moment on, whatever earlier ones said of the time after; the first one holds
 * for all time before it too.
 */
public final class HoursRules {

  /** How a flight's time is taken from one moment on. */
  public record HoursRule(Instant from, HoursBasis basis, Rounding rounding) {}

  private final List<HoursRule> rules = new ArrayList<>();

  /**
   * @param stated in the order in which they were filed
   */
  public HoursRules(List<HoursRule> stated) {
    if (stated.isEmpty()) {
      throw new IllegalArgumentException("An aircraft has particulars");
    }
    for (HoursRule rule : stated) {
      rules.removeIf(earlier -> !earlier.from().isBefore(rule.from()));
      rules.add(rule);
    }
  }

  public HoursRule at(Instant moment) {
    HoursRule holds = rules.get(0);
    for (HoursRule rule : rules) {
      if (!rule.from().isAfter(moment)) {
        holds = rule;
      }
    }
    return holds;
  }
}
