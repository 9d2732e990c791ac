package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.Fleet;
import trestle.people.Members;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Usage;
import trestle.standing.Subject;
import trestle.web.Reading;
import trestle.web.Viewer;

/** One compliance as it is seen, and what would follow from one. */
@ApplicationScoped
class ComplianceView {
  @Inject ComplianceRecords complianceRecords;
  @Inject RequirementRecords requirementRecords;
  @Inject RequirementView views;
  @Inject Subjects subjects;
  @Inject Fleet fleet;
  @Inject Members members;

  /** What would fall due next: the state of each limit, in words. */
  public record Follows(String state, List<Explained.LimitLine> limits) {}

  /** One compliance with what it is about, and the rows that came before and after it. */
  public record Record(
      ComplianceLine line,
      String requirement,
      String subject,
      String link,
      String by,
      List<ComplianceLine> chain,
      HoursStyle style) {

    public String words(Usage usage) {
      return usage.toMap().entrySet().stream()
          .map(entry -> Explained.point(entry.getKey(), entry.getValue(), style))
          .collect(Collectors.joining(", "));
    }
  }

  /** One compliance, standing or not, and the whole line of its corrections. */
  @Reading
  public Record record(Viewer viewer, UUID complianceId) {
    ComplianceLine line = complianceRecords.one(viewer, complianceId);
    UUID aircraft = line.componentId() == null ? line.aircraftId() : null;
    Subject subject = subjects.line(viewer, aircraft, line.componentId(), Records.ALL).subject();
    HoursStyle style =
        subject.aircraftId() == null
            ? HoursStyle.TENTHS
            : fleet.sheet(viewer, subject.aircraftId(), Records.ALL).shownAs();
    return new Record(
        line,
        requirementRecords.history(viewer, line.requirementId()).latest().terms().title(),
        subject.words(),
        views.link(line.requirementId(), aircraft, line.componentId()),
        members.names(viewer).getOrDefault(line.recordedBy(), "a former member"),
        chain(
            line,
            complianceRecords.history(
                viewer,
                Set.of(line.requirementId()),
                line.aircraftId(),
                line.componentId(),
                Records.ALL)),
        style);
  }

  /** What a reckoning that was only supposed would make due; null where nothing is carried. */
  Follows follows(Viewer viewer, Reckoned.Detail detail) {
    if (detail == null) {
      return null;
    }
    UUID aircraft = detail.item().subject().aircraftId();
    HoursStyle style =
        aircraft == null ? HoursStyle.TENTHS : fleet.sheet(viewer, aircraft, Records.ALL).shownAs();
    return new Follows(Explained.words(detail.item().state()), Explained.of(detail, style));
  }

  private static List<ComplianceLine> chain(ComplianceLine line, List<ComplianceLine> all) {
    Map<UUID, ComplianceLine> byId = new HashMap<>();
    all.forEach(one -> byId.put(one.id(), one));
    ComplianceLine at = line;
    while (at.corrects() != null && byId.containsKey(at.corrects())) {
      at = byId.get(at.corrects());
    }
    List<ComplianceLine> chain = new ArrayList<>();
    while (at != null) {
      chain.add(at);
      at = at.correctedBy() == null ? null : byId.get(at.correctedBy());
    }
    return chain;
  }
}
