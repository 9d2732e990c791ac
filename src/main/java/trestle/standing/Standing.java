package trestle.standing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/**
 * What the records say of an aircraft: held, limited, or clear, with all the reasons. Clear means
 * that nothing recorded prevents flight, and never that the aircraft is airworthy.
 *
 * @param reasons those that hold first
 */
public record Standing(Word word, List<Reason> reasons) {

  /** In the order in which a fleet is listed. */
  public enum Word {
    HELD("Held"),
    LIMITED("Limited"),
    CLEAR("Clear");

    private final String shown;

    Word(String shown) {
      this.shown = shown;
    }

    /** As a page shows it. */
    public String shown() {
      return shown;
    }

    /** As style sheets and the API write it. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  public Standing {
    reasons = List.copyOf(reasons);
  }

  /** The standing that due items, already reckoned, and other grounds amount to. */
  public static Standing of(List<DueItem> items, List<Ground> grounds, InWords words) {
    List<Reason> reasons = new ArrayList<>();
    for (DueItem item : items) {
      Reason reason = ItemReason.of(item, words);
      if (reason != null) {
        reasons.add(reason);
      }
    }
    grounds.forEach(ground -> reasons.add(Reason.of(ground)));
    reasons.sort(Comparator.comparing(Reason::weight));
    List<Reason> permitted = permitted(reasons);
    return new Standing(wordOf(permitted), permitted);
  }

  /** A permit limits what would be held to its conditions; all that holds is still listed. */
  private static List<Reason> permitted(List<Reason> sorted) {
    boolean permit = sorted.stream().anyMatch(Reason::permits);
    if (!permit) {
      return sorted;
    }
    return sorted.stream().noneMatch(Reason::holds)
        ? sorted.stream().filter(reason -> !reason.permits()).toList()
        : sorted.stream().map(Reason::asLimit).toList();
  }

  public boolean isHeld() {
    return word == Word.HELD;
  }

  public boolean isLimited() {
    return word == Word.LIMITED;
  }

  public boolean isClear() {
    return word == Word.CLEAR;
  }

  private static Word wordOf(List<Reason> sorted) {
    if (sorted.isEmpty()) {
      return Word.CLEAR;
    }
    return sorted.get(0).holds() ? Word.HELD : Word.LIMITED;
  }
}
