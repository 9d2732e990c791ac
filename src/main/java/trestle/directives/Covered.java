package trestle.directives;

/**
 * Whether an aircraft or a part is among those that are named. What can't be told is never a no:
 * somebody has to look.
 */
public enum Covered {
  NO,
  UNREADABLE,
  YES;

  /** Named here or there. */
  Covered or(Covered other) {
    return compareTo(other) >= 0 ? this : other;
  }

  /** Named here, and there too. */
  Covered and(Covered other) {
    return compareTo(other) <= 0 ? this : other;
  }

  Covered not() {
    return switch (this) {
      case NO -> YES;
      case UNREADABLE -> UNREADABLE;
      case YES -> NO;
    };
  }
}
