package trestle.reckoning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;

/**
 * What a rule, or a group of limits, reckons to.
 *
 * @param leading the index of the controlling entry, -1 when the work is done for good
 * @param entries one for each entry of the group, in its place
 */
public record Reckoning(
    State state, boolean spent, LocalDate projectedOn, int leading, List<Outcome> entries)
    implements Outcome {

  /** Work that is done once, and was done. */
  public static final Reckoning DONE = new Reckoning(State.DONE, false, null, -1, List.of());

  /** The path of indexes down to the limit that will bite first. */
  public List<Integer> controlling() {
    List<Integer> path = new ArrayList<>();
    Outcome at = this;
    while (at instanceof Reckoning group && group.leading >= 0) {
      path.add(group.leading);
      at = group.entries.get(group.leading);
    }
    return List.copyOf(path);
  }

  /** The limit that will bite first, or null when the work is done for good. */
  public LimitReckoning controllingLimit() {
    if (leading < 0) {
      return null;
    }
    Outcome entry = entries.get(leading);
    return entry instanceof Reckoning group ? group.controllingLimit() : (LimitReckoning) entry;
  }

  /** Whether some limit in it is flagged as overrun. */
  public boolean overrun() {
    for (Outcome entry : entries) {
      if (entry instanceof Reckoning group ? group.overrun() : ((LimitReckoning) entry).overrun()) {
        return true;
      }
    }
    return false;
  }

  @Override
  public boolean lacksRate() {
    for (Outcome entry : entries) {
      if (entry.lacksRate()) {
        return true;
      }
    }
    return false;
  }
}
