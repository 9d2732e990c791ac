package trestle.programme;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
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
