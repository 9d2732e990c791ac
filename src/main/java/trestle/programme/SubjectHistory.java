package trestle.programme;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.reckoning.Counter;
import trestle.reckoning.Reading;
import trestle.reckoning.Usage;
import trestle.standing.LastDone;

/**
 * What was done to one subject: its own compliances, and what complete doings of larger work did
 * too. It belongs to the subject, whatever that is fitted to.
 */
final class SubjectHistory {

  /** One doing or baseline of one requirement, with the title of the larger work, if one did it. */
  record Counted(Doing doing, Reading reading, String coveredBy) {
    LastDone asLast() {
      return new LastDone(doing.id(), doing.at(), reading, doing.isBaseline(), coveredBy);
    }
  }

  /**
   * One requirement's history, oldest first.
   *
   * @param baseline where counting starts, or null
   */
  record Of(Counted baseline, List<Counted> doings) {
    static final Of NOTHING = new Of(null, List.of());

    /** How many doings there were by a moment, that moment included. */
    int doingsBy(Instant moment) {
      int count = 0;
      while (count < doings.size() && !doings.get(count).doing().at().isAfter(moment)) {
        count++;
      }
      return count;
    }

    LastDone last() {
      if (!doings.isEmpty()) {
        return doings.get(doings.size() - 1).asLast();
      }
      return baseline == null ? null : baseline.asLast();
    }
  }

  private static final Comparator<Counted> IN_ORDER =
      Comparator.comparing((Counted counted) -> counted.doing().at())
          // Of two at one moment the baseline stands first, then the work's own record.
          .thenComparing(counted -> !counted.doing().isBaseline())
          // Of papers that give the day alone, the hours tell which came first.
          .thenComparing(counted -> counted.reading().usage().units(Counter.HOURS))
          .thenComparing(counted -> counted.coveredBy() != null)
          .thenComparing(counted -> counted.doing().sequence());

  private final Map<UUID, Of> byRequirement = new HashMap<>();
  private final Map<UUID, List<Counted>> inOrder = new HashMap<>();

  private SubjectHistory() {}

  /** From all compliances of one subject that stand. */
  static SubjectHistory of(
      List<Doing> doings, Coverings coverings, Followings followed, SubjectLine line) {
    Map<UUID, List<Counted>> counted = new HashMap<>();
    for (Doing doing : doings) {
      Reading reading = new Reading(doing.countedOn(), usage(doing, line));
      add(counted, doing.requirementId(), new Counted(doing, reading, null));
      if (!doing.isBaseline() && doing.complete()) {
        long under = followed.under(doing.aircraftId(), doing.on());
        for (UUID covered : coverings.coveredBy(doing.requirementId(), doing.on(), under)) {
          String title = coverings.title(doing.requirementId(), doing.on(), under);
          add(counted, covered, new Counted(doing, reading, title));
        }
      }
    }
    SubjectHistory history = new SubjectHistory();
    counted.forEach(
        (requirement, all) -> {
          all.sort(IN_ORDER);
          history.inOrder.put(requirement, all);
          history.byRequirement.put(requirement, ordered(all));
        });
    return history;
  }

  Of of(UUID requirement) {
    return byRequirement.getOrDefault(requirement, Of.NOTHING);
  }

  /** Of which requirements anything was done or stated. */
  Set<UUID> requirements() {
    return inOrder.keySet();
  }

  /** All that was done and stated of one requirement, oldest first, superseded or not. */
  List<Counted> inOrder(UUID requirement) {
    return inOrder.getOrDefault(requirement, List.of());
  }

  /** What one requirement's history was when only so much of it had happened. */
  Of first(UUID requirement, int many) {
    return ordered(inOrder(requirement).subList(0, many));
  }

  private static void add(Map<UUID, List<Counted>> all, UUID requirement, Counted counted) {
    all.computeIfAbsent(requirement, unused -> new ArrayList<>(4)).add(counted);
  }

  /**
   * A baseline stated after the work was done in these records (an engineer's word on from where it
   * counts) takes the place of what was done before; the work stays done at least once.
   */
  private static Of ordered(List<Counted> all) {
    Counted baseline = null;
    List<Counted> doings = new ArrayList<>(all.size());
    for (Counted counted : all) {
      if (counted.doing().isBaseline()) {
        boolean doneBefore = !doings.isEmpty();
        doings.clear();
        baseline = doneBefore ? null : counted;
        if (doneBefore) {
          doings.add(counted);
        }
      } else if (doings.isEmpty() || !sameOccasion(doings.get(doings.size() - 1), counted)) {
        doings.add(counted);
      }
    }
    return new Of(baseline, List.copyOf(doings));
  }

  /** The same work recorded twice on one occasion, such as by itself and within a larger one. */
  static boolean sameOccasion(Counted one, Counted other) {
    return !one.doing().isBaseline() && one.reading().equals(other.reading());
  }

  /**
   * A doing counts at the subject's total at that place in the sequence of flights, and where that
   * is not known (before these records began) as it was signed. A baseline counts as stated.
   */
  private static Usage usage(Doing doing, SubjectLine line) {
    Usage reckoned = line.at(doing.at());
    if (doing.readings().length() <= 2) {
      return reckoned;
    }
    if (!doing.isBaseline() && knowsAll(reckoned, line.now())) {
      return reckoned;
    }
    Usage stated = Readings.parse(doing.readings());
    return doing.isBaseline() ? merged(stated, reckoned) : merged(reckoned, stated);
  }

  private static boolean knowsAll(Usage reckoned, Usage now) {
    return reckoned.toMap().keySet().containsAll(now.toMap().keySet());
  }

  private static Usage merged(Usage first, Usage second) {
    Map<Counter, Long> all = new HashMap<>(second.toMap());
    all.putAll(first.toMap());
    return Usage.ofUnits(all);
  }
}
