package trestle.programme;

import static java.util.stream.Collectors.toMap;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import trestle.formats.Json;
import trestle.formats.JsonText;
import trestle.formats.MalformedJson;
import trestle.reckoning.Entry;
import trestle.reckoning.Group;
import trestle.reckoning.Rule;
import trestle.web.FieldError;
import trestle.web.JsonInput;

/**
 * A rule as JSON: the {@code rule} member of the stateless check, and how requirements keep their
 * rules. A kept rule may also have limits {@code {"with": "requirement"}}.
 */
public final class RuleJson {

  private static final Set<String> RULE = Set.of("combine", "limits", "initial", "once");
  private static final Set<String> GROUP = Set.of("combine", "limits");
  private static final Map<String, Group.Combine> COMBINE =
      Arrays.stream(Group.Combine.values())
          .collect(toMap(Group.Combine::word, Function.identity()));

  private final LimitJson limits;
  private int count;

  private RuleJson(boolean kept) {
    this.limits = new LimitJson(kept);
  }

  /**
   * What was read of a rule, also where some of it is wrong.
   *
   * @param rule null where something is wrong
   * @param group what the limits of the rule need from history and usage
   * @param initial the same for its initial group; null where it has none
   */
  record Read(Rule rule, List<Need> group, List<Need> initial, boolean once) {}

  /**
   * Reads a rule as the stateless check takes it; what is wrong is listed in the input's errors.
   */
  static Read read(JsonInput input) {
    return new RuleJson(false).rule(input);
  }

  /** Reads a rule that is to be kept; empty where something is wrong, which is then listed. */
  public static Optional<Rule> readKept(JsonInput input) {
    return Optional.ofNullable(new RuleJson(true).rule(input).rule());
  }

  /** Reads a rule's kept text back. */
  public static Rule parse(String text) {
    List<FieldError> errors = new ArrayList<>();
    try {
      return readKept(JsonInput.root(JsonText.parse(text), errors))
          .orElseThrow(() -> new IllegalArgumentException("not a rule: " + errors));
    } catch (MalformedJson e) {
      throw new IllegalArgumentException("not a rule: its text " + e.getMessage(), e);
    }
  }

  /** The text by which a rule is kept; {@link #parse} reads it back to an equal rule. */
  public static String text(Rule rule) {
    return JsonText.write(json(rule));
  }

  public static Json json(Rule rule) {
    Json.Builder json = group(rule.group());
    if (rule.initial() != null) {
      json.put("initial", group(rule.initial()).build());
    }
    if (rule.once()) {
      json.put("once", true);
    }
    return json.build();
  }

  private static Json.Builder group(Group group) {
    List<Json> entries = new ArrayList<>();
    for (Entry entry : group.limits()) {
      entries.add(entry instanceof Group inner ? group(inner).build() : LimitJson.json(entry));
    }
    return Json.object()
        .put("combine", group.combine().word())
        .put("limits", new Json.Arr(entries));
  }

  private Read rule(JsonInput input) {
    int before = input.problems();
    if (!input.object(RULE, "a rule")) {
      return new Read(null, List.of(), null, false);
    }
    List<Need> needs = new ArrayList<>();
    Group group = group(input, 1, needs);
    List<Need> initialNeeds = null;
    Group initial = null;
    JsonInput initially = input.member("initial");
    if (initially != null) {
      initialNeeds = new ArrayList<>();
      initial = initially.object(GROUP, "a group") ? group(initially, 1, initialNeeds) : null;
    }
    Boolean once = input.has("once") ? input.member("once").flag() : Boolean.FALSE;
    if (count > Group.MOST_LIMITS) {
      input.member("limits").refuse("a rule has at most 64 limits, this one has " + count);
    }
    boolean onlyOnce = Boolean.TRUE.equals(once);
    Rule rule = input.problems() > before ? null : new Rule(group, initial, onlyOnce);
    return new Read(rule, needs, initialNeeds, onlyOnce);
  }

  /** The group, whose members were checked to be known ones; null where something is wrong. */
  private Group group(JsonInput input, int level, List<Need> needs) {
    if (level > Group.MOST_LEVELS) {
      input.refuse("groups are nested at most 8 deep");
      return null;
    }
    Group.Combine combine =
        input.has("combine") ? input.member("combine").word(COMBINE) : Group.Combine.FIRST;
    List<Entry> entries = entries(input, level, needs);
    return combine == null || entries == null ? null : new Group(combine, entries);
  }

  private List<Entry> entries(JsonInput group, int level, List<Need> needs) {
    if (!group.has("limits")) {
      group.missing("limits", "is missing: a group lists its limits");
      return null;
    }
    List<JsonInput> items = group.member("limits").items();
    if (items == null) {
      return null;
    }
    if (items.isEmpty()) {
      group.member("limits").refuse("must list at least one limit");
      return null;
    }
    List<Entry> entries = new ArrayList<>();
    for (JsonInput item : items) {
      Entry entry = entry(item, level, needs);
      if (entry != null) {
        entries.add(entry);
      }
    }
    return entries.size() == items.size() ? entries : null;
  }

  private Entry entry(JsonInput input, int level, List<Need> needs) {
    if (input.has("limits") || input.has("combine")) {
      return input.object(GROUP, "a group") ? group(input, level + 1, needs) : null;
    }
    count++;
    return limits.read(input, needs);
  }
}
