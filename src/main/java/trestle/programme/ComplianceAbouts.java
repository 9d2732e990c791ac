package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.standing.Subject;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/** Finds what a compliance form is about: a requirement on one subject, or a record of it. */
@ApplicationScoped
class ComplianceAbouts {
  @Inject RequirementRecords requirementRecords;
  @Inject RequirementRepository repository;
  @Inject ComplianceRecords complianceRecords;
  @Inject RequirementView views;
  @Inject Subjects subjects;
  @Inject InstantSource clock;

  @Reading
  ComplianceAbout correcting(Viewer viewer, UUID complianceId) {
    ComplianceLine line = complianceRecords.one(viewer, complianceId);
    ComplianceAbout about = of(viewer, line.requirementId(), line.aircraftId(), line.componentId());
    return new ComplianceAbout(
        about.requirementId(),
        about.title(),
        about.subject(),
        line.aircraftId(),
        line.componentId(),
        about.back(),
        about.covers(),
        line);
  }

  @Reading
  ComplianceAbout of(Viewer viewer, UUID requirementId, UUID aircraft, UUID component) {
    RequirementRecords.History requirement = requirementRecords.history(viewer, requirementId);
    RequirementSheet sheet = requirement.requirement();
    boolean aboutAircraft = sheet.subject().equals("aircraft");
    UUID ofComponent = component == null ? sheet.componentId() : component;
    UUID ofAircraft = aircraft == null && aboutAircraft ? sheet.aircraftId() : aircraft;
    if (aboutAircraft ? ofAircraft == null : ofComponent == null) {
      throw new NotHere("Say on which aircraft or component it was done.");
    }
    Subject subject =
        subjects
            .line(
                viewer,
                aboutAircraft ? ofAircraft : null,
                aboutAircraft ? null : ofComponent,
                View.asAt(viewer.dateOf(clock.instant())))
            .subject();
    Terms terms = requirement.latest().terms();
    return new ComplianceAbout(
        requirementId,
        terms.title(),
        subject.words(),
        subject.aircraftId(),
        aboutAircraft ? null : ofComponent,
        views.link(
            requirementId, aboutAircraft ? ofAircraft : null, aboutAircraft ? null : ofComponent),
        terms.covers().isEmpty() ? List.of() : titles(terms.covers()),
        null);
  }

  private List<String> titles(List<UUID> requirementIds) {
    Map<UUID, String> titles = new LinkedHashMap<>();
    requirementIds.forEach(id -> titles.put(id, ""));
    repository
        .revisions(requirementIds, Records.ALL)
        .forEach(one -> titles.put(one.requirement().id(), one.revision().terms().title()));
    return List.copyOf(titles.values());
  }
}
