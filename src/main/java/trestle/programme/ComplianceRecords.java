package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import trestle.ledger.View;
import trestle.reckoning.Usage;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What was filed of required work, as it is asked for; {@link Compliances} files it. */
@ApplicationScoped
public class ComplianceRecords {
  @Inject ComplianceRepository repository;
  @Inject RequirementRepository requirements;
  @Inject Subjects subjects;
  @Inject DueItems dueItems;
  @Inject DocumentFiles files;
  @Inject InstantSource clock;

  /** A compliance whose signer wrote other totals than are reckoned for that moment. */
  public record Discrepancy(String requirement, String subject, ComplianceLine compliance) {

    public String signed() {
      return words(compliance.signed());
    }

    public String reckoned() {
      return words(compliance.reckoned());
    }

    private String words(Usage usage) {
      return compliance.differing().stream()
          .map(counter -> Missing.words(counter) + " " + counter.unit().show(usage.units(counter)))
          .collect(Collectors.joining(", "));
    }
  }

  /** What would fall due next if this were filed; empty where the subject does not carry it. */
  @Reading
  Optional<Reckoned.Detail> whatFollows(Viewer viewer, NewCompliance asked, UUID instead) {
    Doing supposed =
        new Doing(
            new UUID(0, 0),
            asked.requirementId(),
            asked.aircraftId(),
            asked.componentId(),
            asked.baseline() ? Compliance.BASELINE : Compliance.DONE,
            asked.at(),
            viewer.dateOf(asked.at()),
            Readings.json(asked.readings()),
            asked.complete(),
            asked.countsFrom(),
            Long.MAX_VALUE);
    return dueItems.detail(
        viewer,
        asked.requirementId(),
        asked.aircraftId(),
        asked.componentId(),
        View.asAt(viewer.dateOf(clock.instant())),
        supposed,
        instead);
  }

  /** Which of these requirements were done, all of it, in the view; one statement. */
  @Reading
  public Set<UUID> done(Viewer viewer, Collection<UUID> requirementIds, View view) {
    return requirementIds.isEmpty() ? Set.of() : repository.done(requirementIds, view);
  }

  /**
   * How the work of some records was done, as far as they say: the remarks, and the reference or
   * the old papers; one statement.
   */
  @Reading
  public Map<UUID, String> methods(Viewer viewer, Collection<UUID> complianceIds) {
    Map<UUID, String> methods = new HashMap<>();
    if (!complianceIds.isEmpty()) {
      repository.list("id in ?1", complianceIds).forEach(row -> methods.put(row.id(), method(row)));
    }
    return methods;
  }

  /** The papers filed with some records, by record; at most two statements. */
  @Reading
  public Map<UUID, List<Paper>> papers(Viewer viewer, Collection<UUID> complianceIds) {
    return complianceIds.isEmpty()
        ? Map.of()
        : files.papers(repository.list("id in ?1 and fileSha256 is not null", complianceIds));
  }

  private static String method(Compliance row) {
    String reference =
        row.transcribedFrom.isEmpty()
            ? row.workReference
            : "transcribed from " + row.transcribedFrom;
    return Stream.of(row.remarks, reference)
        .filter(words -> !words.isBlank())
        .collect(Collectors.joining(". "));
  }

  /** One record, standing or not. */
  @Reading
  public ComplianceLine one(Viewer viewer, UUID complianceId) {
    Compliance row = repository.one(Compliance.class, complianceId);
    if (row == null) {
      throw new NotHere("There is no such record here.");
    }
    return history(viewer, Set.of(row.requirementId), row.aircraftId, row.componentId, Records.ALL)
        .stream()
        .filter(line -> line.id().equals(complianceId))
        .findFirst()
        .orElseThrow();
  }

  /** All that was filed on some requirements of one subject, corrected rows too, oldest first. */
  @Reading
  public List<ComplianceLine> history(
      Viewer viewer,
      Collection<UUID> requirementIds,
      UUID aircraftId,
      UUID componentId,
      View view) {
    UUID subject = componentId == null ? aircraftId : componentId;
    List<Compliance> rows = repository.filed(requirementIds, subject, view);
    if (rows.isEmpty()) {
      return List.of();
    }
    Map<UUID, UUID> correctedBy = new HashMap<>();
    rows.stream()
        .filter(row -> row.corrects() != null)
        .forEach(row -> correctedBy.put(row.corrects(), row.id()));
    SubjectLine line = subjects.line(viewer, aircraftId, componentId, view);
    Map<UUID, List<Paper>> papers = files.papers(rows);
    return rows.stream()
        .map(
            row ->
                ComplianceLine.of(
                    row, correctedBy.get(row.id()), line, papers.getOrDefault(row.id(), List.of())))
        .toList();
  }

  /** Standing compliances whose signed readings differ from what is reckoned, by aircraft. */
  @Reading
  public List<Discrepancy> discrepancies(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    List<SubjectLine> lines = subjects.onAircraft(viewer, aircraftIds, view);
    Map<UUID, SubjectLine> bySubject = new HashMap<>();
    lines.forEach(line -> bySubject.put(line.subject().id(), line));
    Set<UUID> parts = new HashSet<>(bySubject.keySet());
    parts.removeAll(aircraftIds);
    List<Doing> differing = new ArrayList<>();
    for (Doing doing : repository.doings(aircraftIds, parts, view)) {
      SubjectLine line = bySubject.get(doing.subjectId());
      if (!doing.isBaseline()
          && doing.readings().length() > 2
          && !Readings.differing(Readings.parse(doing.readings()), line.at(doing.at())).isEmpty()) {
        differing.add(doing);
      }
    }
    return differing.stream()
        .map(doing -> discrepancy(viewer, doing, bySubject.get(doing.subjectId()), view))
        .toList();
  }

  private Discrepancy discrepancy(Viewer viewer, Doing doing, SubjectLine line, View view) {
    Compliance row = repository.one(Compliance.class, doing.id());
    String title =
        requirements.revisions(Set.of(doing.requirementId()), view).stream()
            .reduce((earlier, later) -> later)
            .map(revised -> revised.revision().terms().title())
            .orElse("");
    return new Discrepancy(
        title, line.subject().words(), ComplianceLine.of(row, null, line, List.of()));
  }
}
