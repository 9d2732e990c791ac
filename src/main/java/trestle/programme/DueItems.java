package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Configurations;
import trestle.ledger.View;
import trestle.standing.DueItem;
import trestle.standing.DueSource;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * What falls due: the requirements in force of the programmes that aircraft follow (less what they
 * are excluded from), of aircraft and of the parts fitted to them, each reckoned over the history
 * of its subject. Reads in a number of statements that does not depend on how many there are.
 */
@ApplicationScoped
public class DueItems implements DueSource {
  @Inject ProgrammeRepository programmes;
  @Inject RequirementRepository requirements;
  @Inject ComplianceRepository compliances;
  @Inject Subjects subjects;
  @Inject Configurations configurations;
  @Inject Instance<Endings> endings;

  @Override
  @Reading
  public Map<UUID, List<DueItem>> dueItems(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<DueItem>> items = new HashMap<>();
    aircraftIds.forEach(id -> items.put(id, new ArrayList<>()));
    if (items.isEmpty()) {
      return items;
    }
    List<SubjectLine> lines = subjects.onAircraft(viewer, items.keySet(), view);
    for (Reckoned reckoned : reckoned(viewer, lines, view, null, null)) {
      items.get(reckoned.subject().aircraftId()).addAll(reckoned.items());
    }
    return items;
  }

  /** What falls due on one component, wherever it is fitted, or on the shelf. */
  @Reading
  public List<DueItem> onComponent(Viewer viewer, UUID componentId, View view) {
    return reckoned(viewer, subjects.component(viewer, componentId, view), view, null, null)
        .stream()
        .flatMap(reckoned -> reckoned.items().stream())
        .toList();
  }

  /** One requirement on one subject; empty where the subject does not carry it. */
  @Reading
  public Optional<DueItem> one(
      Viewer viewer, UUID requirementId, UUID aircraftId, UUID componentId, View view) {
    return detail(viewer, requirementId, aircraftId, componentId, view, null, null)
        .map(Reckoned.Detail::item);
  }

  /**
   * One requirement on one subject, with the history it was reckoned over.
   *
   * @param supposed work to count in as if it were filed, or null
   * @param instead the compliance that it would take the place of, or null
   */
  Optional<Reckoned.Detail> detail(
      Viewer viewer,
      UUID requirementId,
      UUID aircraftId,
      UUID componentId,
      View view,
      Doing supposed,
      UUID instead) {
    List<SubjectLine> lines =
        componentId == null
            ? subjects.aircraft(viewer, aircraftId, view)
            : subjects.component(viewer, componentId, view);
    return reckoned(viewer, lines, view, supposed, instead).stream()
        .flatMap(reckoned -> reckoned.detail(requirementId).stream())
        .findFirst();
  }

  private List<Reckoned> reckoned(
      Viewer viewer, List<SubjectLine> lines, View view, Doing supposed, UUID instead) {
    Set<UUID> aircraft = new HashSet<>();
    Set<UUID> parts = new HashSet<>();
    Set<String> numbers = new HashSet<>();
    for (SubjectLine line : lines) {
      if (line.partNumber() != null) {
        numbers.add(line.partNumber().toLowerCase(Locale.ROOT));
      }
      if (line.subject().aircraftId() != null) {
        aircraft.add(line.subject().aircraftId());
      }
      if (!line.subject().isAircraft()) {
        parts.add(line.subject().id());
      }
    }
    Carried carried = carried(viewer, aircraft, parts, numbers, view);
    Coverings coverings = requirements.coverings(view);
    Map<UUID, List<Doing>> doings = new HashMap<>();
    for (Doing doing : compliances.doings(aircraft, parts, view)) {
      if (!doing.id().equals(instead)) {
        doings.computeIfAbsent(doing.subjectId(), id -> new ArrayList<>()).add(doing);
      }
    }
    if (supposed != null) {
      doings.computeIfAbsent(supposed.subjectId(), id -> new ArrayList<>()).add(supposed);
    }
    Map<UUID, List<ExtensionRow>> extensions = new HashMap<>();
    for (ExtensionRow row : compliances.extensions(aircraft, parts, view)) {
      extensions.computeIfAbsent(row.subjectId(), id -> new ArrayList<>()).add(row);
    }
    List<Reckoned> all = new ArrayList<>(lines.size());
    for (SubjectLine line : lines) {
      UUID id = line.subject().id();
      SubjectHistory history =
          SubjectHistory.of(doings.getOrDefault(id, List.of()), coverings, carried.followed, line);
      all.add(
          new Reckoned(
              new Reckoned.Facts(
                  carried.by(line.subject(), line.partNumber()),
                  history,
                  extensions.getOrDefault(id, List.of()),
                  line,
                  view.upTo(),
                  viewer.zone())));
    }
    return all;
  }

  private Carried carried(
      Viewer viewer, Set<UUID> aircraft, Set<UUID> parts, Set<String> numbers, View view) {
    Followings followed = new Followings(programmes.adoptions(aircraft, view));
    Exclusions exclusions = new Exclusions(programmes.exclusions(aircraft, view));
    List<RequirementRepository.Revised> revisions =
        requirements.revisions(followed.programmes(), aircraft, parts, numbers, view);
    return new Carried(
        followed,
        exclusions.on(view.upTo()),
        modified(viewer, aircraft, revisions, view),
        notEnded(viewer, revisions, view),
        view.upTo());
  }

  /** Less the directives' that need no more doing. */
  private List<RequirementRepository.Revised> notEnded(
      Viewer viewer, List<RequirementRepository.Revised> revisions, View view) {
    Set<UUID> directives = new HashSet<>();
    for (RequirementRepository.Revised revised : revisions) {
      if (revised.requirement().programmeId() == null
          && revised.revision().terms().kind().isOfDirectives()) {
        directives.add(revised.requirement().id());
      }
    }
    Set<UUID> ended = new HashSet<>();
    if (!directives.isEmpty()) {
      endings.forEach(one -> ended.addAll(one.ended(viewer, directives, view)));
    }
    return ended.isEmpty()
        ? revisions
        : revisions.stream().filter(one -> !ended.contains(one.requirement().id())).toList();
  }

  /** What is embodied on each; not asked for where no requirement depends on it. */
  private Map<UUID, Set<String>> modified(
      Viewer viewer, Set<UUID> aircraft, List<RequirementRepository.Revised> revisions, View view) {
    return revisions.stream().allMatch(each -> each.revision().terms().where().isAnywhere())
        ? Map.of()
        : configurations.codes(viewer, aircraft, view);
  }
}
