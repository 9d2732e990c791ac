package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.Set;
import trestle.people.Members;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** Whether a compliance may be filed; each refusal says why not, in a sentence. */
@ApplicationScoped
class ComplianceCheck {
  @Inject ComplianceRepository repository;
  @Inject RequirementRepository requirements;
  @Inject Subjects subjects;
  @Inject Members members;

  void refuseUnfit(Viewer viewer, NewCompliance asked, Instant now) {
    if (asked.at().isAfter(now)) {
      throw new Refusal("on", "Date must not be in the future.");
    }
    if (asked.countsFrom() != null && asked.countsFrom().isAfter(viewer.dateOf(now))) {
      throw new Refusal("counts-from", "Counts from must not be in the future.");
    }
    subject(viewer, asked);
    mayFile(viewer, asked.transcribedFrom());
    if (asked.transcribedFrom().isBlank()) {
      licence(viewer, asked);
    }
    if (asked.baseline()) {
      baseline(viewer, asked);
    }
  }

  /** The work must lie within a licence of the signer's on that day. */
  private void licence(Viewer viewer, NewCompliance asked) {
    boolean good =
        members.licencesOf(viewer, viewer.personId(), viewer.dateOf(asked.at())).stream()
            .anyMatch(licence -> licence.number().equals(asked.licenceNumber().strip()));
    if (!good) {
      throw new Refusal(
          "licence", "Licence must be one of yours that was good on the day of the work.");
    }
  }

  private void subject(Viewer viewer, NewCompliance asked) {
    Requirement requirement = requirements.findById(asked.requirementId());
    if (requirement == null) {
      throw new NotHere("There is no such requirement here.");
    }
    boolean aboutAircraft = requirement.subject.equals("aircraft");
    boolean fits =
        aboutAircraft == (asked.componentId() == null)
            && (!aboutAircraft || asked.aircraftId() != null)
            && (requirement.componentId == null
                || requirement.componentId.equals(asked.componentId()))
            && (!aboutAircraft
                || requirement.aircraftId == null
                || requirement.aircraftId.equals(asked.aircraftId()));
    if (!fits) {
      throw new Refusal("", "That requirement is not about this aircraft or component.");
    }
    if (!aboutAircraft && !subjects.isOfKind(viewer, asked.componentId(), requirement.subject)) {
      throw new Refusal("", "That requirement is not about this kind of component.");
    }
  }

  /** Where it counts from, once work was done, is for an engineer to say, with a reference. */
  private void baseline(Viewer viewer, NewCompliance asked) {
    boolean doneBefore =
        repository.filed(Set.of(asked.requirementId()), asked.subjectId(), Records.ALL).stream()
            .filter(row -> row.kind.equals(Compliance.DONE) && !row.voided)
            .anyMatch(
                row ->
                    !row.happenedAt().isAfter(asked.at())
                        && repository.correctionOf(Compliance.class, row.id()) == null);
    if (doneBefore && !viewer.is(Role.ENGINEER)) {
      throw new Refusal(
          "kind",
          "The work was done before: from where it counts now is for an engineer to state.");
    }
    if (doneBefore && asked.workReference().isBlank()) {
      throw new Refusal(
          "work-reference",
          "Reference is needed: name the decision by which it counts from there.");
    }
  }

  /** Certified by an engineer, or copied from old papers that are named. */
  static void mayFile(Viewer viewer, String transcribedFrom) {
    if (transcribedFrom.isBlank() && !viewer.is(Role.ENGINEER)) {
      throw new Refusal(
          "transcribed-from",
          "Only an engineer certifies work. To copy it from old papers, name them here.");
    }
    if (!viewer.isAny(Role.ENGINEER, Role.CONTROLLER, Role.OWNER)) {
      throw new Refusal("", "Filing compliance is for engineers, controllers and owners.");
    }
  }
}
