package trestle.apron;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reckoning;
import trestle.reckoning.State;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.standing.Subject;

/** What falls due, in a few lines for pages that a pilot reads or carries. */
final class DueNotes {
  private static final int NEXT = 3;

  private DueNotes() {}

  /** The first few that still have something left. */
  static List<DueNote> next(AircraftStanding aircraft) {
    return all(aircraft, NEXT);
  }

  /** Up to so many, what bites first on top; what is done for good is left out. */
  static List<DueNote> all(AircraftStanding aircraft, int most) {
    InWords words = new InWords(aircraft.sheet().shownAs());
    List<DueItem> open =
        aircraft.items().stream()
            .filter(DueItem::isMandatory)
            .filter(item -> item.state() != State.DONE)
            .toList();
    Phase phase = Phase.of(open);
    return open.stream()
        .sorted(phase.bitesFirst())
        .limit(most)
        .map(item -> note(item, words, phase.isOut(item)))
        .toList();
  }

  private static DueNote note(DueItem item, InWords words, boolean outOfPhase) {
    Subject subject = item.subject();
    return new DueNote(
        subject.isAircraft() ? item.title() : item.title() + " (" + subject.words() + ")",
        each(item, words::left),
        each(item, words::due),
        item.link(),
        outOfPhase);
  }

  private static String each(DueItem item, Function<LimitReckoning, String> told) {
    List<LimitReckoning> limits = new ArrayList<>();
    collect(item.reckoning(), limits);
    return limits.stream()
        .map(told)
        .filter(words -> !words.isEmpty())
        .collect(Collectors.joining(" or "));
  }

  private static void collect(Reckoning group, List<LimitReckoning> limits) {
    for (Outcome entry : group.entries()) {
      if (entry instanceof Reckoning inner) {
        collect(inner, limits);
      } else {
        limits.add((LimitReckoning) entry);
      }
    }
  }
}
