package trestle.reckoning;

import java.util.List;
import java.util.Locale;

/** A list of limits and how they combine. */
public record Group(Combine combine, List<Entry> limits) implements Entry {

  /** The most limits of a rule, its initial group's included. */
  public static final int MOST_LIMITS = 64;

  /** The most levels of groups, the rule itself being the first. */
  public static final int MOST_LEVELS = 8;

  /** Whichever comes first, or whichever comes later. */
  public enum Combine {
    FIRST,
    LAST;

    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  public Group {
    limits = List.copyOf(limits);
    if (limits.isEmpty()) {
      throw new IllegalArgumentException("a group needs at least one limit");
    }
  }

  public static Group first(Entry... limits) {
    return new Group(Combine.FIRST, List.of(limits));
  }

  public static Group last(Entry... limits) {
    return new Group(Combine.LAST, List.of(limits));
  }

  /** How many limits there are, those of inner groups included. */
  int size() {
    int size = 0;
    for (Entry entry : limits) {
      size += entry instanceof Group group ? group.size() : 1;
    }
    return size;
  }

  int levels() {
    int inner = 0;
    for (Entry entry : limits) {
      inner = Math.max(inner, entry instanceof Group group ? group.levels() : 0);
    }
    return inner + 1;
  }
}
