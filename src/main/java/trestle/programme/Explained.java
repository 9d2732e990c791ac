package trestle.programme;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import trestle.reckoning.Calendar;
import trestle.reckoning.Counter;
import trestle.reckoning.Group;
import trestle.reckoning.History;
import trestle.reckoning.Hours;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Limit;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reading;
import trestle.reckoning.Reckoner;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Rule;
import trestle.reckoning.RuleWords;
import trestle.reckoning.Scale;
import trestle.reckoning.State;
import trestle.reckoning.Step;
import trestle.standing.DueItem;
import trestle.standing.Granted;
import trestle.standing.InWords;
import trestle.web.Shown;

/** How each due point of a requirement was reckoned, step by step, in words. */
final class Explained {

  /**
   * One limit, reckoned.
   *
   * @param path the path of indexes down to it
   * @param extendable whether it has a due point that could be put off
   * @param depth how deep in groups it stands
   * @param state in words, such as "in its tolerance"
   * @param projected when it is expected to fall due, or why that is not known
   * @param controlling whether it is the one that will bite first
   */
  record LimitLine(
      String path,
      boolean extendable,
      String words,
      int depth,
      String due,
      String left,
      String state,
      String projected,
      boolean controlling,
      boolean spent,
      List<String> steps) {}

  private final DueItem item;
  private final Rule rule;
  private final History history;
  private final HoursStyle style;
  private final InWords inWords;
  private final List<LimitLine> lines = new ArrayList<>();

  private Explained(Reckoned.Detail detail, HoursStyle style) {
    this.item = detail.item();
    this.rule = detail.revision().terms().rule();
    this.history = detail.reckonedOver();
    this.style = style;
    this.inWords = new InWords(style);
  }

  static List<LimitLine> of(Reckoned.Detail detail, HoursStyle style) {
    Explained explained = new Explained(detail, style);
    explained.add(explained.item.reckoning(), List.of());
    return explained.lines;
  }

  static String words(State state) {
    return switch (state) {
      case AHEAD -> "ahead";
      case SOON -> "soon";
      case DUE -> "due";
      case IN_TOLERANCE -> "in its tolerance";
      case OVERDUE -> "overdue";
      case UNKNOWN -> "not known";
      case DONE -> "done for good";
    };
  }

  private void add(Reckoning group, List<Integer> path) {
    for (int i = 0; i < group.entries().size(); i++) {
      List<Integer> below = new ArrayList<>(path);
      below.add(i);
      Outcome entry = group.entries().get(i);
      if (entry instanceof Reckoning inner) {
        add(inner, below);
      } else {
        lines.add(line((LimitReckoning) entry, below));
      }
    }
  }

  private LimitLine line(LimitReckoning limit, List<Integer> path) {
    return new LimitLine(
        ExtensionRow.text(path),
        limit.limit() instanceof Limit.Measured,
        RuleWords.limit(limit.limit()),
        path.size() - 1,
        inWords.due(limit),
        inWords.left(limit),
        words(limit.state()),
        projected(limit),
        path.equals(item.reckoning().controlling()),
        limit.spent(),
        steps(limit, path));
  }

  private String projected(LimitReckoning limit) {
    if (limit.projectedOn() != null) {
      return Shown.date(limit.projectedOn());
    }
    return limit.lacksRate() ? "no rate of use is known" : "";
  }

  private List<String> steps(LimitReckoning limit, List<Integer> path) {
    List<String> steps = new ArrayList<>();
    if (limit.limit() instanceof Limit.Every every) {
      if (every.fromLastDone()) {
        counted(every, path, steps);
      } else {
        steps.add(fromOrigin(every));
      }
    } else if (limit.limit() instanceof Limit.Fixed fixed) {
      steps.add("Fixed at " + point(fixed.scale(), fixed.point()) + ".");
    } else {
      steps.add("Due when that other work is next done.");
    }
    for (Granted granted : item.extensions()) {
      if (granted.limit().equals(path)) {
        Scale scale = ((Limit.Measured) limit.limit()).scale();
        steps.add(
            "Extended to %s, granted by %s, %s."
                .formatted(point(scale, granted.due()), granted.approvedBy(), granted.reference()));
      }
    }
    if (limit.overrun()) {
      steps.add(
          "Its last doing came after the due point and any tolerance: this next due point is"
              + " provisional until an engineer states from where it counts.");
    }
    return steps;
  }

  private void counted(Limit.Every limit, List<Integer> path, List<String> steps) {
    List<Step> all = Reckoner.steps(limit, path, rule, history);
    int doing = history.baseline() == null ? 0 : -1;
    long due = Scale.UNKNOWN;
    for (Step step : all) {
      steps.add(
          step(limit, step, due, doing < 0 ? history.baseline() : history.doings().get(doing)));
      due = step.due();
      doing++;
    }
    if (all.isEmpty()) {
      steps.add("Nothing says when it was last done, nor from where it counts.");
    }
  }

  private String step(Limit.Every limit, Step step, long wasDue, Reading reading) {
    Scale scale = limit.scale();
    String done = point(scale, scale.pointOf(reading));
    String next = " Next due at " + point(scale, step.due()) + ".";
    String when = "when due at " + point(scale, wasDue);
    return switch (step.why()) {
      case BASELINE -> "Counts from its baseline, " + done + "." + next;
      case FIRST_DONE -> "First done at " + done + ": counts from there." + next;
      case FROM_DONE -> "Done at " + done + ", " + when + ": counts from when it was done." + next;
      case WITHIN_WINDOW ->
          "Done at " + done + ", within the window " + when + ": counts from the due point." + next;
      case KEPT_SCHEDULE -> "Done at " + done + ", late " + when + ": the schedule is kept." + next;
      case UNKNOWN ->
          step.anchor() == Scale.UNKNOWN
              ? "What stood then is not known, so from where it counts is not known."
              : "Done at " + done + ": counts from there." + next;
    };
  }

  private String fromOrigin(Limit.Every limit) {
    Reading origin = history.origins().get(limit.from());
    long from = origin == null ? Scale.UNKNOWN : limit.scale().pointOf(origin);
    String name =
        RequirementForm.origins().stream()
            .filter(option -> option.value().equals(limit.from()))
            .map(option -> option.label())
            .findFirst()
            .orElse(limit.from());
    return from == Scale.UNKNOWN
        ? "Counts from " + name + ", which is not known on this scale."
        : "Counts from %s, %s; doing the work does not move that."
            .formatted(name, point(limit.scale(), from));
  }

  private String point(Scale scale, long point) {
    return point(scale, point, style);
  }

  /** A point on a scale: "1,006.0 h", "2,210 landings", "11 March 2025", "an unknown point". */
  static String point(Scale scale, long point, HoursStyle style) {
    if (point == Scale.UNKNOWN) {
      return "an unknown point";
    }
    if (scale == Calendar.DAYS) {
      return Shown.date(LocalDate.ofEpochDay(point));
    }
    Counter counter = (Counter) scale;
    return counter.inHours()
        ? Shown.used(new Hours(point), style)
            + (counter.equals(Counter.HOURS) ? " h" : " h (" + Missing.words(counter) + ")")
        : Shown.count(point) + " " + Missing.words(counter);
  }

  /** The group that is reckoned now, in words, or that the work is over for good. */
  static String reckoned(Rule rule, int doings) {
    Group group = Reckoned.reckoned(rule, doings);
    return group == null ? "Done once; nothing more falls due." : RuleWords.group(group);
  }
}
