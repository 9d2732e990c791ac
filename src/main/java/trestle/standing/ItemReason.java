package trestle.standing;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reckoning;
import trestle.reckoning.State;

/** Whether, and why, one due item holds or limits its aircraft. */
final class ItemReason {

  private final DueItem item;
  private final InWords words;

  private ItemReason(DueItem item, InWords words) {
    this.item = item;
    this.words = words;
  }

  /** The reason, or null: advice never holds or limits, nor does work that is not yet due. */
  static Reason of(DueItem item, InWords words) {
    return item.isMandatory() ? new ItemReason(item, words).reason() : null;
  }

  private Reason reason() {
    if (item.reckoning().spent()) {
      return forbidding(": " + past() + notKnown());
    }
    if (item.state() == State.UNKNOWN) {
      return forbidding(
          (item.forbidsAnyFlight() ? " " : ": ") + "cannot be reckoned." + notKnown());
    }
    if (drawsOnTolerance(item.reckoning())) {
      return new Reason(Ground.Weight.LIMITED, what(), inTolerance(), item.link());
    }
    return null;
  }

  private Reason forbidding(String about) {
    return item.forbidsAnyFlight()
        ? new Reason(Ground.Weight.HELD, what(), about, item.link())
        : new Reason(
            Ground.Weight.LIMITED, what(), ", " + words.not(item.forbids()) + about, item.link());
  }

  private String what() {
    return item.subject().isAircraft()
        ? item.title()
        : item.title() + " (" + item.subject().words() + ")";
  }

  private String past() {
    List<String> each = new ArrayList<>();
    for (LimitReckoning limit : limits(LimitReckoning::spent)) {
      each.add(words.past(limit));
    }
    String life = item.kind().equals("life-limit") ? "life limit reached, " : "";
    return life + String.join(", and ", each) + ".";
  }

  private String notKnown() {
    return item.missing().isEmpty() ? "" : " " + String.join(" ", item.missing());
  }

  private String inTolerance() {
    List<String> left = new ArrayList<>();
    for (LimitReckoning limit : limits(ItemReason::drawsOn)) {
      left.add(words.toleranceLeft(limit));
    }
    String condition = item.toleranceCondition().isBlank() ? "" : item.toleranceCondition() + ", ";
    return " is in its tolerance: " + condition + String.join(", and ", left) + ".";
  }

  /**
   * Past due with some tolerance left, or at zero by use with some left. On its due date a limit by
   * the calendar is still good and limits nothing.
   */
  private static boolean drawsOnTolerance(Outcome outcome) {
    if (outcome instanceof LimitReckoning limit) {
      return drawsOn(limit);
    }
    if (outcome.state() != State.DUE && outcome.state() != State.IN_TOLERANCE) {
      return false;
    }
    return ((Reckoning) outcome)
        .entries().stream()
            .anyMatch(entry -> entry.state() == outcome.state() && drawsOnTolerance(entry));
  }

  private static boolean drawsOn(LimitReckoning limit) {
    return limit.state() == State.IN_TOLERANCE
        || limit.state() == State.DUE && !limit.isByCalendar();
  }

  private List<LimitReckoning> limits(Predicate<LimitReckoning> which) {
    List<LimitReckoning> found = new ArrayList<>();
    collect(item.reckoning(), which, found);
    return found;
  }

  private static void collect(
      Reckoning group, Predicate<LimitReckoning> which, List<LimitReckoning> found) {
    for (Outcome entry : group.entries()) {
      if (entry instanceof Reckoning inner) {
        collect(inner, which, found);
      } else if (which.test((LimitReckoning) entry)) {
        found.add((LimitReckoning) entry);
      }
    }
  }
}
