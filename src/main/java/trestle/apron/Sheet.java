package trestle.apron;

import java.util.List;
import trestle.web.Total;

/**
 * What the printed sheet says beside what the pre-flight page does.
 *
 * @param due up to one page of what falls due, what bites first on top
 * @param more how many more there are than fit
 */
record Sheet(PreFlight p, List<Total> totals, List<DueNote> due, int more) {

  public List<DueNote> outOfPhase() {
    return due.stream().filter(DueNote::outOfPhase).toList();
  }
}
