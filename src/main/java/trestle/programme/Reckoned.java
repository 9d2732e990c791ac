package trestle.programme;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.reckoning.Companion;
import trestle.reckoning.Entry;
import trestle.reckoning.Extension;
import trestle.reckoning.Group;
import trestle.reckoning.History;
import trestle.reckoning.Limit;
import trestle.reckoning.Reading;
import trestle.reckoning.Reckoner;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Rule;
import trestle.reckoning.Situation;
import trestle.standing.DueItem;
import trestle.standing.Granted;
import trestle.standing.Subject;

/** All requirements of one subject, reckoned over what was done to it. */
final class Reckoned {

  /** What falls on a subject on a day: the requirements it carries, and everything about them. */
  record Facts(
      List<Revision> carried,
      SubjectHistory history,
      List<ExtensionRow> extensions,
      SubjectLine line,
      LocalDate today,
      ZoneId zone) {}

  private final Facts facts;
  private final Map<UUID, Revision> carried = new HashMap<>();
  private final Map<UUID, Reckoning> done = new HashMap<>();
  private final Set<UUID> underWay = new HashSet<>();

  Reckoned(Facts facts) {
    this.facts = facts;
    facts.carried().forEach(revision -> carried.put(revision.requirementId(), revision));
  }

  List<DueItem> items() {
    List<DueItem> items = new ArrayList<>(facts.carried().size());
    for (Revision revision : facts.carried()) {
      items.add(item(revision));
    }
    return items;
  }

  /** One requirement with all that it was reckoned from. */
  record Detail(DueItem item, Revision revision, SubjectHistory.Of history, History reckonedOver) {}

  Subject subject() {
    return facts.line().subject();
  }

  Optional<Detail> detail(UUID requirement) {
    Revision revision = carried.get(requirement);
    if (revision == null) {
      return Optional.empty();
    }
    SubjectHistory.Of history = facts.history().of(requirement);
    return Optional.of(new Detail(item(revision), revision, history, historyOf(revision, history)));
  }

  private DueItem item(Revision revision) {
    SubjectHistory.Of history = facts.history().of(revision.requirementId());
    Reckoning reckoning = reckoning(revision);
    Terms terms = revision.terms();
    return new DueItem(
        revision.requirementId(),
        revision.id(),
        facts.line().subject(),
        terms.title(),
        terms.kind().word(),
        terms.force(),
        terms.forbids(),
        !terms.covers().isEmpty(),
        terms.toleranceCondition(),
        terms.sourceReference(),
        terms.labourMinutes(),
        terms.downtimeHours(),
        terms.rule(),
        revision.ruleWords(),
        history.last(),
        facts.line().now(),
        facts.line().utilisation(),
        granted(revision, history),
        Missing.of(reckoning, revision, historyOf(revision, history), facts.line()),
        reckoning,
        link(revision));
  }

  /** What the revision reckons to, or null where that asks for itself in a circle. */
  private Reckoning reckoning(Revision revision) {
    UUID id = revision.requirementId();
    if (done.containsKey(id)) {
      return done.get(id);
    }
    if (!underWay.add(id)) {
      return null;
    }
    SubjectHistory.Of history = facts.history().of(id);
    Situation now =
        new Situation(
            facts.today(),
            facts.line().now(),
            facts.line().utilisation(),
            companions(revision, history));
    Reckoning reckoning = Reckoner.reckon(rule(revision), historyOf(revision, history), now);
    underWay.remove(id);
    done.put(id, reckoning);
    return reckoning;
  }

  /** The history as the core takes it, with origins and extensions. */
  History historyOf(Revision revision, SubjectHistory.Of history) {
    Rule rule = rule(revision);
    List<Reading> doings = new ArrayList<>(history.doings().size());
    history.doings().forEach(counted -> doings.add(counted.reading()));
    return new History(
        history.baseline() == null ? null : history.baseline().reading(),
        doings,
        Rules.namesOrigin(rule) ? origins(revision) : Map.of(),
        extensions(revision, history));
  }

  private Rule rule(Revision revision) {
    return Rules.sinceNew(revision.terms().rule(), facts.line()::isSinceNew);
  }

  private Map<String, Reading> origins(Revision revision) {
    Map<String, Reading> origins = new HashMap<>(facts.line().origins());
    LocalDate day = revision.terms().effectiveOn();
    origins.put(
        Rules.EFFECTIVE,
        new Reading(day, facts.line().at(day.atStartOfDay(facts.zone()).toInstant())));
    return origins;
  }

  private List<Extension> extensions(Revision revision, SubjectHistory.Of history) {
    if (facts.extensions().isEmpty()) {
      return List.of();
    }
    List<Extension> all = new ArrayList<>();
    for (ExtensionRow row : facts.extensions()) {
      if (row.requirementId().equals(revision.requirementId())) {
        all.add(new Extension(row.path(), history.doingsBy(row.at()), row.newDue()));
      }
    }
    return all;
  }

  private List<Granted> granted(Revision revision, SubjectHistory.Of history) {
    if (facts.extensions().isEmpty()) {
      return List.of();
    }
    return facts.extensions().stream()
        .filter(row -> row.requirementId().equals(revision.requirementId()))
        .filter(row -> history.doingsBy(row.at()) == history.doings().size())
        .map(ExtensionRow::granted)
        .toList();
  }

  private Map<String, Companion> companions(Revision revision, SubjectHistory.Of history) {
    List<String> names = Rules.companions(revision.terms().rule());
    if (names.isEmpty()) {
      return Map.of();
    }
    Map<String, Companion> companions = new HashMap<>();
    for (String name : names) {
      Revision other = carried.get(UUID.fromString(name));
      Reckoning reckoning = other == null ? null : reckoning(other);
      if (reckoning != null) {
        companions.put(name, new Companion(reckoning, doneSince(other, revision, history)));
      }
    }
    return companions;
  }

  /**
   * Whether the other work was done on a later day than this was last done, or began to count; on
   * the same day it was done with it.
   */
  private boolean doneSince(Revision other, Revision revision, SubjectHistory.Of history) {
    var lastOther = facts.history().of(other.requirementId()).last();
    if (lastOther == null || lastOther.baseline()) {
      return false;
    }
    var last = history.last();
    LocalDate since =
        last == null
            ? revision.terms().effectiveOn()
            : last.at().atZone(facts.zone()).toLocalDate();
    return lastOther.at().atZone(facts.zone()).toLocalDate().isAfter(since);
  }

  private String link(Revision revision) {
    String subject = facts.line().subject().isAircraft() ? "aircraft" : "component";
    return "/requirements/"
        + revision.requirementId()
        + "?"
        + subject
        + "="
        + facts.line().subject().id();
  }

  /** The group that is reckoned after so many doings; null when the work is over for good. */
  static Group reckoned(Rule rule, int doings) {
    if (doings == 0) {
      return rule.initial() == null ? rule.group() : rule.initial();
    }
    return rule.once() ? null : rule.group();
  }

  static Entry at(Group group, List<Integer> path) {
    Entry at = group;
    for (int index : path) {
      if (!(at instanceof Group inner) || index >= inner.limits().size()) {
        return null;
      }
      at = inner.limits().get(index);
    }
    return at instanceof Limit ? at : null;
  }
}
