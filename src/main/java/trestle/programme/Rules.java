package trestle.programme;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Predicate;
import trestle.reckoning.Amount;
import trestle.reckoning.Counter;
import trestle.reckoning.Entry;
import trestle.reckoning.Group;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;

/** What a rule names: origins, counters, other requirements. */
final class Rules {
  static final String NEW = "new";
  static final String OVERHAUL = "overhaul";
  static final String FITTED = "fitted";
  static final String EFFECTIVE = "effective";

  private Rules() {}

  static boolean namesOrigin(Rule rule) {
    return namesOrigin(rule.group()) || rule.initial() != null && namesOrigin(rule.initial());
  }

  private static boolean namesOrigin(Group group) {
    for (Entry entry : group.limits()) {
      if (entry instanceof Group inner
          ? namesOrigin(inner)
          : entry instanceof Limit.Every every && !every.fromLastDone()) {
        return true;
      }
    }
    return false;
  }

  /** The requirements that limits "with" name. */
  static List<String> companions(Rule rule) {
    if (!namesCompanion(rule.group())
        && (rule.initial() == null || !namesCompanion(rule.initial()))) {
      return List.of();
    }
    List<String> names = new ArrayList<>();
    each(
        rule,
        limit -> {
          if (limit instanceof Limit.With with) {
            names.add(with.requirement());
          }
        });
    return names;
  }

  private static boolean namesCompanion(Group group) {
    for (Entry entry : group.limits()) {
      if (entry instanceof Group inner ? namesCompanion(inner) : entry instanceof Limit.With) {
        return true;
      }
    }
    return false;
  }

  static Set<String> origins(Rule rule) {
    Set<String> origins = new LinkedHashSet<>();
    each(
        rule,
        limit -> {
          if (limit instanceof Limit.Every every && !every.fromLastDone()) {
            origins.add(every.from());
          }
        });
    return origins;
  }

  static Set<Counter> counters(Rule rule) {
    Set<Counter> counters = new LinkedHashSet<>();
    each(
        rule,
        limit -> {
          if (limit instanceof Limit.Measured measured
              && measured.scale() instanceof Counter counter) {
            counters.add(counter);
          }
        });
    return counters;
  }

  /** Whether some limit may be passed, or lets the next interval count from where it was due. */
  static boolean givesLeeway(Rule rule) {
    boolean[] gives = {false};
    each(
        rule,
        limit ->
            gives[0] |=
                limit instanceof Limit.Measured measured && measured.tolerance() != null
                    || limit instanceof Limit.Every every && every.window() != null);
    return gives[0];
  }

  /**
   * The rule with fixed totals of some counters said as so much since new, so that they are unknown
   * where it is not known how long since new the subject has run.
   */
  static Rule sinceNew(Rule rule, Predicate<Counter> unlessKnown) {
    boolean[] asked = {false};
    each(rule, limit -> asked[0] |= isTotal(limit, unlessKnown));
    if (!asked[0]) {
      return rule;
    }
    return new Rule(
        sinceNew(rule.group(), unlessKnown),
        rule.initial() == null ? null : sinceNew(rule.initial(), unlessKnown),
        rule.once());
  }

  private static Group sinceNew(Group group, Predicate<Counter> unlessKnown) {
    List<Entry> entries = new ArrayList<>();
    for (Entry entry : group.limits()) {
      if (entry instanceof Group inner) {
        entries.add(sinceNew(inner, unlessKnown));
      } else {
        entries.add(isTotal((Limit) entry, unlessKnown) ? sinceNew((Limit.Fixed) entry) : entry);
      }
    }
    return new Group(group.combine(), entries);
  }

  private static boolean isTotal(Limit limit, Predicate<Counter> unlessKnown) {
    return limit instanceof Limit.Fixed fixed
        && fixed.scale() instanceof Counter counter
        && fixed.point() > 0
        && !unlessKnown.test(counter);
  }

  private static Limit sinceNew(Limit.Fixed fixed) {
    Counter counter = (Counter) fixed.scale();
    return new Limit.Every(
        counter,
        new Amount(fixed.point(), counter.unit()),
        Limit.Ends.ANNIVERSARY,
        NEW,
        fixed.soon(),
        fixed.tolerance(),
        Limit.Late.RESTART,
        null);
  }

  private static void each(Rule rule, Consumer<Limit> visit) {
    each(rule.group(), visit);
    if (rule.initial() != null) {
      each(rule.initial(), visit);
    }
  }

  private static void each(Group group, Consumer<Limit> visit) {
    for (Entry entry : group.limits()) {
      if (entry instanceof Group inner) {
        each(inner, visit);
      } else {
        visit.accept((Limit) entry);
      }
    }
  }
}
