package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.ledger.View;
import trestle.reckoning.LimitReckoning;
import trestle.standing.DueItem;
import trestle.standing.Subject;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * Work that was done past its limit with any tolerance or extension, or is past it and not done,
 * and what was flown meanwhile: told from the records each time, so that a flight found late, a
 * corrected reading or an extension filed since tells itself. While a requirement was excluded from
 * the aircraft's programme nothing was late by it: neither what was flown then, nor what was done
 * then or on the day it was carried again.
 */
@ApplicationScoped
public class Overruns {
  @Inject Subjects subjects;
  @Inject ProgrammeRepository programmes;
  @Inject RequirementRepository requirements;
  @Inject ComplianceRepository compliances;

  /**
   * One of them.
   *
   * @param limit that was passed, as it stood when the work was done, or stands now
   * @param doneOn null while it is not done
   * @param flights how many landed past the limit, on this aircraft
   * @param firstFlight the day of the first of them, or null
   */
  public record Overrun(
      UUID requirementId,
      String title,
      Subject subject,
      boolean mandatory,
      LimitReckoning limit,
      LocalDate doneOn,
      int flights,
      LocalDate firstFlight,
      LocalDate lastFlight) {}

  /**
   * Of an aircraft, and of the parts while they were on it; what is not done first, then the
   * latest.
   *
   * @param carried what it carries at the end of the view
   */
  @Reading
  public List<Overrun> of(Viewer viewer, UUID aircraftId, Collection<DueItem> carried, View view) {
    List<SubjectLine> lines = subjects.everOn(viewer, aircraftId, view);
    Set<UUID> parts = new HashSet<>();
    lines.stream()
        .map(SubjectLine::subject)
        .filter(subject -> !subject.isAircraft())
        .forEach(subject -> parts.add(subject.id()));
    Set<UUID> aircraft = Set.of(aircraftId);
    Map<UUID, List<Doing>> doings =
        compliances.doings(aircraft, parts, view).stream()
            .collect(Collectors.groupingBy(Doing::subjectId));
    Map<UUID, List<ExtensionRow>> extensions =
        compliances.extensions(aircraft, parts, view).stream()
            .collect(Collectors.groupingBy(ExtensionRow::subjectId));
    Followings followed = new Followings(programmes.adoptions(aircraft, view));
    Exclusions exclusions = new Exclusions(programmes.exclusions(aircraft, view));
    Coverings coverings = requirements.coverings(view);
    Map<UUID, SubjectHistory> histories = new HashMap<>();
    Set<UUID> asked = new HashSet<>();
    carried.forEach(item -> asked.add(item.requirementId()));
    for (SubjectLine line : lines) {
      UUID id = line.subject().id();
      SubjectHistory history =
          SubjectHistory.of(doings.getOrDefault(id, List.of()), coverings, followed, line);
      histories.put(id, history);
      asked.addAll(history.requirements());
    }
    Map<UUID, List<Revision>> revisions =
        requirements.revisions(asked, view).stream()
            .map(RequirementRepository.Revised::revision)
            .collect(Collectors.groupingBy(Revision::requirementId));
    List<Overrun> found = new ArrayList<>();
    for (SubjectLine line : lines) {
      UUID id = line.subject().id();
      Walk walk =
          new Walk(
              aircraftId,
              line,
              histories.get(id),
              extensions.getOrDefault(id, List.of()),
              followed,
              exclusions,
              viewer.zone());
      Map<UUID, UUID> open = open(carried, id);
      for (UUID requirement : requirements(histories.get(id), open.keySet())) {
        found.addAll(
            walk.of(
                revisions.getOrDefault(requirement, List.of()),
                open.get(requirement),
                view.upTo()));
      }
    }
    found.sort(
        Comparator.comparing((Overrun one) -> one.doneOn() == null ? LocalDate.MAX : one.doneOn())
            .reversed()
            .thenComparing(Overrun::title));
    return found;
  }

  /** By requirement, the revision that a subject carries at the end of the view. */
  private static Map<UUID, UUID> open(Collection<DueItem> carried, UUID subject) {
    Map<UUID, UUID> open = new HashMap<>();
    carried.stream()
        .filter(item -> item.subject().id().equals(subject))
        .forEach(item -> open.put(item.requirementId(), item.revisionId()));
    return open;
  }

  private static Set<UUID> requirements(SubjectHistory history, Set<UUID> open) {
    Set<UUID> all = new HashSet<>(history.requirements());
    all.addAll(open);
    return all;
  }
}
