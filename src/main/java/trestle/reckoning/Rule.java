package trestle.reckoning;

import java.util.Objects;

/**
 * When work falls due.
 *
 * @param group the limits
 * @param initial the limits used instead while the work has never been done, or null
 * @param once whether doing it ends it: a life limit, a deferral, a one-off
 */
public record Rule(Group group, Group initial, boolean once) {

  public Rule {
    Objects.requireNonNull(group, "group");
    int size = group.size() + (initial == null ? 0 : initial.size());
    int levels = Math.max(group.levels(), initial == null ? 0 : initial.levels());
    if (size > Group.MOST_LIMITS) {
      throw new IllegalArgumentException("a rule has at most 64 limits");
    }
    if (levels > Group.MOST_LEVELS) {
      throw new IllegalArgumentException("groups are nested at most 8 deep");
    }
  }

  public static Rule first(Entry... limits) {
    return new Rule(Group.first(limits), null, false);
  }

  public static Rule last(Entry... limits) {
    return new Rule(Group.last(limits), null, false);
  }

  public Rule withInitial(Group group) {
    return new Rule(this.group, group, once);
  }

  public Rule onlyOnce() {
    return new Rule(group, initial, true);
  }

  /** The group that is reckoned after so many doings; null when the work is over for good. */
  Group reckonedAfter(int doings) {
    if (doings == 0) {
      return initial == null ? group : initial;
    }
    return once ? null : group;
  }
}
