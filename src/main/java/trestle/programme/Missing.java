package trestle.programme;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import trestle.reckoning.Calendar;
import trestle.reckoning.Counter;
import trestle.reckoning.History;
import trestle.reckoning.Limit;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reading;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Scale;
import trestle.reckoning.State;

/** What is not known where a reckoning is unknown, in sentences that say what to enter. */
final class Missing {
  private final Revision revision;
  private final History history;
  private final SubjectLine line;
  private final Set<String> sentences = new LinkedHashSet<>();

  private Missing(Revision revision, History history, SubjectLine line) {
    this.revision = revision;
    this.history = history;
    this.line = line;
  }

  static List<String> of(
      Reckoning reckoning, Revision revision, History history, SubjectLine line) {
    if (!hasUnknown(reckoning)) {
      return List.of();
    }
    Missing missing = new Missing(revision, history, line);
    missing.look(reckoning);
    return List.copyOf(missing.sentences);
  }

  private static boolean hasUnknown(Reckoning reckoning) {
    for (Outcome entry : reckoning.entries()) {
      if (entry.state() == State.UNKNOWN || entry instanceof Reckoning inner && hasUnknown(inner)) {
        return true;
      }
    }
    return false;
  }

  private void look(Reckoning reckoning) {
    for (Outcome entry : reckoning.entries()) {
      if (entry instanceof Reckoning inner) {
        look(inner);
      } else if (entry.state() == State.UNKNOWN) {
        look(((LimitReckoning) entry).limit(), ((LimitReckoning) entry).due());
      }
    }
  }

  private void look(Limit limit, long due) {
    if (limit instanceof Limit.With) {
      sentences.add(
          "It is due with other work which this "
              + (line.subject().isAircraft() ? "aircraft" : "component")
              + " does not carry, or for which nothing is known.");
      return;
    }
    Limit.Measured measured = (Limit.Measured) limit;
    if (measured.scale() instanceof Counter counter && line.now().units(counter) == Scale.UNKNOWN) {
      sentences.add("The total of %s of %s is not known.".formatted(words(counter), subject()));
    }
    if (due == Scale.UNKNOWN) {
      sentences.add(start((Limit.Every) limit));
    }
  }

  private String start(Limit.Every limit) {
    if (!limit.fromLastDone()) {
      return origin(limit);
    }
    if (history.baseline() == null && history.doings().isEmpty()) {
      return "Nothing says when it was last done, nor from where it counts.";
    }
    return "The %s when it was last done %s not known."
        .formatted(measure(limit.scale()), isOrAre(limit.scale()));
  }

  private String origin(Limit.Every limit) {
    Reading known = history.origins().get(limit.from());
    String when =
        switch (limit.from()) {
          case Rules.NEW -> "when it was new";
          case Rules.OVERHAUL -> "at its last overhaul";
          case Rules.FITTED -> "when it was fitted";
          case Rules.EFFECTIVE -> "on the effective date, " + revision.terms().effectiveOn() + ",";
          default -> "at " + limit.from();
        };
    return known == null && !limit.from().equals(Rules.EFFECTIVE)
        ? "Nothing is known of %s %s.".formatted(subject(), when)
        : "The %s of %s %s %s not known."
            .formatted(measure(limit.scale()), subject(), when, isOrAre(limit.scale()));
  }

  private String subject() {
    return line.subject().words();
  }

  private static String measure(Scale scale) {
    return scale == Calendar.DAYS ? "date" : words((Counter) scale);
  }

  private static String isOrAre(Scale scale) {
    return scale == Calendar.DAYS ? "is" : "are";
  }

  static String words(Counter counter) {
    return counter.name().replace('-', ' ');
  }
}
