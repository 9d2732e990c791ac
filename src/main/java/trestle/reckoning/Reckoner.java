package trestle.reckoning;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The one way in: from a rule, a history and today to the next due point, its state and its
 * projection. Nothing is guessed: without a baseline or a needed total the answer is {@link
 * State#UNKNOWN}, in the parts that need it and in the whole unless the rest decides it.
 *
 * <p>The cost does not depend on the size of the numbers, only on how many limits and doings there
 * are.
 */
public final class Reckoner {

  private final History history;
  private final Situation now;

  private Reckoner(History history, Situation now) {
    this.history = history;
    this.now = now;
  }

  /** Reckons one rule over the history of its subject, as of a moment. */
  public static Reckoning reckon(Rule rule, History history, Situation now) {
    Group group = rule.reckonedAfter(history.doings().size());
    return group == null
        ? Reckoning.DONE
        : new Reckoner(history, now).group(group, extensions(rule, history), 0);
  }

  /**
   * How a limit that counts from last done came to its due point: a step for the baseline, if there
   * is one, and one for each doing.
   *
   * @param path the path of indexes down to the limit
   */
  public static List<Step> steps(
      Limit.Every limit, List<Integer> path, Rule rule, History history) {
    List<Extension> granted =
        extensions(rule, history).stream().filter(one -> one.limit().equals(path)).toList();
    List<Step> steps = new ArrayList<>();
    for (int n = history.baseline() == null ? 1 : 0; n <= history.doings().size(); n++) {
      History first = new History(history.baseline(), history.doings().subList(0, n));
      steps.add(Progress.of(limit, first, granted).step());
    }
    return steps;
  }

  /** Those of the group that is reckoned: what was granted to an initial group ended with it. */
  private static List<Extension> extensions(Rule rule, History history) {
    List<Extension> all = history.extensions();
    if (all.isEmpty() || rule.initial() == null || history.doings().isEmpty()) {
      return all;
    }
    return all.stream().filter(extension -> extension.afterDoings() > 0).toList();
  }

  private Reckoning group(Group group, List<Extension> extensions, int level) {
    List<Entry> entries = group.limits();
    Outcome[] outcomes = new Outcome[entries.size()];
    for (int i = 0; i < outcomes.length; i++) {
      List<Extension> granted =
          extensions.isEmpty() ? extensions : at(entries.get(i), level, i, extensions);
      outcomes[i] =
          entries.get(i) instanceof Group inner
              ? group(inner, granted, level + 1)
              : limit((Limit) entries.get(i), granted);
    }
    return Combining.of(group.combine(), Arrays.asList(outcomes));
  }

  private LimitReckoning limit(Limit limit, List<Extension> extensions) {
    if (limit instanceof Limit.With with) {
      return with(with);
    }
    if (limit instanceof Limit.Fixed fixed) {
      return judge(fixed, fixed.point(), false, extensions);
    }
    Limit.Every every = (Limit.Every) limit;
    if (!every.fromLastDone()) {
      return judge(every, fromOrigin(every), false, extensions);
    }
    Progress progress = Progress.of(every, history, extensions);
    return judge(every, progress.due(), progress.overrun(), extensions);
  }

  private long fromOrigin(Limit.Every limit) {
    Reading origin = history.origins().get(limit.from());
    long point = origin == null ? Scale.UNKNOWN : limit.scale().pointOf(origin);
    return point == Scale.UNKNOWN ? Scale.UNKNOWN : limit.scheduled(point, 1);
  }

  private LimitReckoning judge(
      Limit.Measured limit, long scheduled, boolean overrun, List<Extension> extensions) {
    Extension granted = granted(extensions, history.doings().size());
    // What it extended is behind: an overhaul, say, began the interval again.
    boolean behind = granted != null && scheduled != Scale.UNKNOWN && scheduled >= granted.due();
    boolean extended = granted != null && !behind;
    return judge(limit, extended ? granted.due() : scheduled, overrun, extended);
  }

  private LimitReckoning judge(Limit.Measured limit, long due, boolean overrun, boolean extended) {
    LocalDate today = now.asOf();
    Counter counter = limit.scale() instanceof Counter by ? by : null;
    long at = counter == null ? today.toEpochDay() : now.usage().units(counter);
    if (due == Scale.UNKNOWN || at == Scale.UNKNOWN) {
      return LimitReckoning.unknown(limit, overrun, extended, due);
    }
    long lastGood = limit.lastGood(due);
    boolean spent = counter == null ? at > lastGood : at >= lastGood;
    long left = due - at;
    LocalDate projected =
        counter != null
            ? now.utilisation().usedUp(counter, left, today)
            : left <= 0 ? today : LocalDate.ofEpochDay(due);
    boolean lacksRate =
        counter != null && left > 0 && now.utilisation().rate(counter) == Scale.UNKNOWN;
    State state = state(limit, due, at, lastGood);
    return new LimitReckoning(
        limit, state, spent, overrun, extended, due, left, projected, lacksRate);
  }

  private static State state(Limit.Measured limit, long due, long at, long lastGood) {
    if (at < due) {
      return limit.soon() != null && limit.soon().before(due) <= at ? State.SOON : State.AHEAD;
    }
    if (at == due) {
      return State.DUE;
    }
    return at <= lastGood ? State.IN_TOLERANCE : State.OVERDUE;
  }

  /**
   * Due when the other requirement is next done: until then it stands as that one stands; once that
   * one was done without this, this is overdue. Other work that is over for good, or not known,
   * leaves it unknown.
   */
  private LimitReckoning with(Limit.With limit) {
    Companion other = now.companions().get(limit.requirement());
    if (other == null || !other.doneSince() && other.reckoning().state() == State.DONE) {
      return LimitReckoning.unknown(limit, false, false, Scale.UNKNOWN);
    }
    return other.doneSince()
        ? with(limit, State.OVERDUE, true, now.asOf(), false)
        : with(
            limit,
            other.reckoning().state(),
            other.reckoning().spent(),
            other.reckoning().projectedOn(),
            other.reckoning().lacksRate());
  }

  private static LimitReckoning with(
      Limit.With limit, State state, boolean spent, LocalDate projectedOn, boolean lacksRate) {
    return new LimitReckoning(
        limit, state, spent, false, false, Scale.UNKNOWN, Scale.UNKNOWN, projectedOn, lacksRate);
  }

  /** The extension of the occurrence that is due after so many doings; the last one granted. */
  static Extension granted(List<Extension> extensions, int doings) {
    Extension granted = null;
    for (int i = 0; i < extensions.size(); i++) {
      if (extensions.get(i).afterDoings() == doings) {
        granted = extensions.get(i);
      }
    }
    return granted;
  }

  /**
   * The extensions whose path goes through one entry of a group, or ends at it if it is a limit.
   */
  private static List<Extension> at(Entry entry, int level, int index, List<Extension> extensions) {
    List<Extension> at = new ArrayList<>();
    for (Extension extension : extensions) {
      List<Integer> path = extension.limit();
      boolean reaches = entry instanceof Group ? path.size() > level + 1 : path.size() == level + 1;
      if (reaches && path.get(level) == index) {
        at.add(extension);
      }
    }
    return at;
  }
}
