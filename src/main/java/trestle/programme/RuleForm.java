package trestle.programme;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.formats.JsonText;
import trestle.formats.MalformedJson;
import trestle.reckoning.Entry;
import trestle.reckoning.Group;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.web.FieldError;
import trestle.web.Form;
import trestle.web.JsonInput;

/**
 * A rule as a person fills it in: up to three limits, up to three used until the work is first done
 * (as directives put it: one, or the first of two others, whichever is later), perhaps other work
 * that it is due with; or, for anything nested deeper, its JSON.
 */
public final class RuleForm {
  static final int LIMITS = 3;
  static final int INITIAL_LIMITS = 3;

  /** How limit 1 of those used at first combines with limits 2 and 3, which are a group. */
  static final String LATER_OF_ONE = "later-of-one";

  static final String EARLIER_OF_ONE = "earlier-of-one";

  static final String EXPERT = "rule";
  private static final int MOST_TEXT = 20_000;

  private final Form form;

  private RuleForm(Form form) {
    this.form = form;
  }

  /** The rule that was filled in, or null; the form then has the sentences. */
  public static Rule read(Form form) {
    return new RuleForm(form).rule();
  }

  /** Fills the form in with a rule; one that its rows can't say goes into the expert's text. */
  public static void fill(Form form, Rule rule) {
    new RuleForm(form).fill(rule);
  }

  private Rule rule() {
    String json = form.optional(EXPERT, "Rule as JSON").lines(MOST_TEXT);
    List<Entry> limits = rows("limit", LIMITS);
    UUID with = form.optional("with", "Due with").uuid();
    if (with != null) {
      limits.add(new Limit.With(with.toString()));
    }
    if (json != null) {
      if (!limits.isEmpty()) {
        form.fail(EXPERT, "Rule as JSON must stay empty when limits are filled in above.");
      }
      return expert(json);
    }
    if (limits.isEmpty()) {
      form.fail("limit-1-by", "Limit 1 must say when the work is due.");
      return null;
    }
    List<Entry> initial = rows("initial", INITIAL_LIMITS);
    Rule rule =
        new Rule(
            group("combine", limits),
            initial.isEmpty() ? null : initial(initial),
            form.checked("once"));
    return form.isOk() ? rule : null;
  }

  private List<Entry> rows(String prefix, int most) {
    List<Entry> limits = new ArrayList<>();
    for (int row = 1; row <= most; row++) {
      Limit limit = new LimitRow(form, prefix, row).read();
      if (limit != null) {
        limits.add(limit);
      }
    }
    return limits;
  }

  private Group initial(List<Entry> limits) {
    String how = form.value("initial-combine");
    if (!how.equals(LATER_OF_ONE) && !how.equals(EARLIER_OF_ONE)) {
      return group("initial-combine", limits);
    }
    if (limits.size() < INITIAL_LIMITS) {
      form.fail(
          "initial-combine",
          "First due at speaks of three limits: fill them all in, or choose another.");
      return group("initial-combine", limits);
    }
    return how.equals(LATER_OF_ONE)
        ? Group.last(limits.get(0), Group.first(limits.get(1), limits.get(2)))
        : Group.first(limits.get(0), Group.last(limits.get(1), limits.get(2)));
  }

  private Group group(String combine, List<Entry> limits) {
    return new Group(
        form.value(combine).equals(Group.Combine.LAST.word())
            ? Group.Combine.LAST
            : Group.Combine.FIRST,
        limits);
  }

  private Rule expert(String json) {
    List<FieldError> errors = new ArrayList<>();
    try {
      Optional<Rule> rule = RuleJson.readKept(JsonInput.root(JsonText.parse(json), errors));
      if (rule.isPresent()) {
        return rule.get();
      }
    } catch (MalformedJson e) {
      form.fail(EXPERT, "Rule as JSON is not JSON: its text " + e.getMessage() + ".");
      return null;
    } catch (JsonInput.TooMuchWrong e) {
      // The first of them is told below.
    }
    FieldError first = errors.get(0);
    String where = first.field().isEmpty() ? "" : ", at " + first.field();
    form.fail(EXPERT, "Rule as JSON" + where + ": " + first.reason() + ".");
    return null;
  }

  private void fill(Rule rule) {
    List<Limit> limits = new ArrayList<>();
    String with = null;
    for (Entry entry : rule.group().limits()) {
      if (entry instanceof Limit.With companion && with == null) {
        with = companion.requirement();
      } else if (entry instanceof Limit limit) {
        limits.add(limit);
      } else {
        limits.clear();
        break;
      }
    }
    boolean said = limits.size() <= LIMITS && says(rule.group(), limits, with);
    if (!said || rule.initial() != null && !saysInitial(rule.initial())) {
      form.with(EXPERT, RuleJson.text(rule));
      return;
    }
    form.with("combine", rule.group().combine().word()).with("with", with);
    fill("limit", limits);
    if (rule.initial() != null) {
      form.with("initial-combine", initialCombine(rule.initial()));
      fill("initial", flat(rule.initial()).map(Limit.class::cast).toList());
    }
    if (rule.once()) {
      form.with("once", "yes");
    }
  }

  /** With other work, rows can say it only where that stands last, as they are read back. */
  private static boolean says(Group group, List<Limit> limits, String with) {
    int size = limits.size() + (with == null ? 0 : 1);
    boolean last =
        with == null
            || group.limits().get(group.limits().size() - 1) instanceof Limit.With companion
                && companion.requirement().equals(with);
    return size == group.limits().size()
        && last
        && limits.stream().noneMatch(Limit.With.class::isInstance);
  }

  private static boolean saysInitial(Group initial) {
    List<Entry> flat = flat(initial).toList();
    boolean nested = flat.size() > initial.limits().size();
    return flat.size() <= INITIAL_LIMITS
        && flat.stream().allMatch(Limit.Measured.class::isInstance)
        && (!nested || isOneAndTwo(initial));
  }

  private static Stream<Entry> flat(Group initial) {
    return initial.limits().stream()
        .flatMap(
            entry -> entry instanceof Group inner ? inner.limits().stream() : Stream.of(entry));
  }

  /** Limit 1, then a group of two that combine the other way round. */
  private static boolean isOneAndTwo(Group initial) {
    return initial.limits().size() == 2
        && initial.limits().get(1) instanceof Group inner
        && inner.limits().size() == 2
        && inner.combine() != initial.combine();
  }

  private static String initialCombine(Group initial) {
    if (!isOneAndTwo(initial)) {
      return initial.combine().word();
    }
    return initial.combine() == Group.Combine.LAST ? LATER_OF_ONE : EARLIER_OF_ONE;
  }

  private void fill(String prefix, List<Limit> limits) {
    for (int i = 0; i < limits.size(); i++) {
      new LimitRow(form, prefix, i + 1).fill((Limit.Measured) limits.get(i));
    }
  }
}
