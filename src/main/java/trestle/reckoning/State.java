package trestle.reckoning;

import java.util.Locale;

/** How near a limit, or a group of limits, is to being due; the first five in order of severity. */
public enum State {
  AHEAD,
  SOON,
  DUE,
  IN_TOLERANCE,
  OVERDUE,
  /** Something needed is not known; never guessed. Mandatory work in this state holds. */
  UNKNOWN,
  /** Work that is done once has been done. */
  DONE;

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Its severity where it is at or past due, else nothing. */
  int lateness() {
    return compareTo(DUE) >= 0 ? ordinal() : 0;
  }
}
