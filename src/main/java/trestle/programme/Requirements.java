package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.standing.Subject;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** What must be done: requirements of a type's programme, of one aircraft, or of one component. */
@ApplicationScoped
public class Requirements {
  @Inject RequirementRepository repository;
  @Inject ProgrammeRepository programmes;
  @Inject RequirementRecords records;
  @Inject Subjects subjects;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * Creates a requirement with its first revision.
   *
   * @return its id
   * @throws Refusal naming the fields that can't stand, a cycle of covers in words
   */
  @Filing
  public UUID create(Viewer viewer, NewRequirement asked) {
    bump(viewer, new Owner(asked));
    List<UUID> before =
        asked.formKey() == null ? List.of() : repository.requirementsOfForm(asked.formKey());
    if (!before.isEmpty()) {
      return before.get(0);
    }
    Requirement requirement = new Requirement();
    requirement.operatorId = viewer.operatorId();
    requirement.programmeId = asked.programmeId();
    requirement.aircraftId = asked.aircraftId();
    requirement.componentId = asked.componentId();
    requirement.partNumber = asked.partNumber();
    requirement.subject = asked.subject();
    checkOwner(viewer, requirement);
    check(viewer, requirement.id, requirement.subject, asked.terms());

    repository.persist(requirement);
    RequirementRevision revision = revision(requirement, asked.terms());
    revision.approvedBy = asked.approvedBy();
    revision.happened(
        asked.inForceFrom().atStartOfDay(viewer.zone()).toInstant(), asked.inForceFrom());
    revision.fromForm(asked.formKey());
    ledger.file(act(viewer), revision);
    return requirement.id;
  }

  /**
   * Files a revision, with a reason and who approved it.
   *
   * @throws Stale when someone revised the requirement since the form was opened
   */
  @Filing
  public void revise(Viewer viewer, NewRevision asked) {
    RequirementRevision latest = open(viewer, asked);
    if (latest == null) {
      return;
    }
    Requirement requirement = repository.findById(asked.requirementId());
    check(viewer, requirement.id, requirement.subject, asked.terms());
    file(viewer, asked, revision(requirement, asked.terms()));
  }

  /** Ends a requirement from a day on, with a reason and who approved it. */
  @Filing
  public void withdraw(
      Viewer viewer,
      UUID requirementId,
      UUID revises,
      LocalDate from,
      String reason,
      String approvedBy) {
    NewRevision asked =
        new NewRevision(requirementId, revises, null, from, reason, approvedBy, null);
    open(viewer, asked);
    RequirementRevision end =
        revision(
            repository.findById(requirementId),
            records.history(viewer, requirementId).latest().terms());
    end.withdrawn = true;
    file(viewer, asked, end);
  }

  /**
   * Makes requirements known here as another operator's record has them, without a word of what
   * they say: their revisions are filed next, in the same transaction. Known ones stay.
   */
  @Filing
  public void takeUp(Viewer viewer, List<RequirementSheet> requirements) {
    for (RequirementSheet one : requirements) {
      if (repository.findById(one.id()) == null) {
        Requirement row = new Requirement();
        row.id = one.id();
        row.operatorId = viewer.operatorId();
        row.programmeId = one.programmeId();
        row.aircraftId = one.aircraftId();
        row.componentId = one.componentId();
        row.partNumber = one.partNumber();
        row.subject = one.subject();
        repository.persist(row);
      }
    }
  }

  /** What terms could not be filed for, of a requirement about this kind of subject. */
  @Reading
  public List<Refusal.Reason> faults(Viewer viewer, String subject, Terms terms) {
    return new TermsCheck(null, subject, terms, Map.of()).reasons();
  }

  /** The latest revision, when that is the one the person saw; null when this form was filed. */
  private RequirementRevision open(Viewer viewer, NewRevision asked) {
    Requirement requirement = repository.findById(asked.requirementId());
    if (requirement == null) {
      throw new NotHere("There is no such requirement here.");
    }
    bump(viewer, new Owner(requirement));
    repository.lock(asked.requirementId());
    if (repository.filedForm(asked.formKey())) {
      return null;
    }
    RequirementRevision latest = repository.latest(asked.requirementId());
    if (!latest.id().equals(asked.revises())) {
      throw new Stale("Someone revised “" + latest.title + "” since you opened this form.");
    }
    if (latest.withdrawn) {
      throw new Refusal("", "“" + latest.title + "” has been withdrawn.");
    }
    if (asked.reason() == null || asked.reason().isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it is revised.");
    }
    if (asked.approvedBy() == null || asked.approvedBy().isBlank()) {
      throw new Refusal("approved-by", "Approved by is needed: say who approved the revision.");
    }
    return latest;
  }

  private void file(Viewer viewer, NewRevision asked, RequirementRevision revision) {
    revision.revises = asked.revises();
    revision.approvedBy = asked.approvedBy();
    revision.because(asked.reason());
    revision.happened(
        asked.inForceFrom().atStartOfDay(viewer.zone()).toInstant(), asked.inForceFrom());
    revision.fromForm(asked.formKey());
    ledger.file(act(viewer), revision);
  }

  private RequirementRevision revision(Requirement requirement, Terms terms) {
    Issued under = programmes.newest(requirement.programmeId);
    RequirementRevision revision = new RequirementRevision();
    revision.of(requirement);
    revision.programmeRevision = under == null ? null : under.id();
    revision.title = terms.title().strip();
    revision.kind = terms.kind().word();
    revision.rule = RuleJson.text(terms.rule());
    revision.effectiveOn = terms.effectiveOn();
    revision.force = terms.force().word();
    revision.forbids = terms.forbids().strip();
    revision.covers = terms.covers().toArray(UUID[]::new);
    revision.toleranceCondition = terms.toleranceCondition().strip();
    revision.toleranceSource = terms.toleranceSource().strip();
    revision.sourceReference = terms.sourceReference().strip();
    revision.labourMinutes = terms.labourMinutes();
    revision.downtimeHours = terms.downtimeHours();
    if (!terms.where().isAnywhere()) {
      revision.modification = terms.where().modification();
      revision.modificationPresent = terms.where().present();
    }
    return revision;
  }

  private void checkOwner(Viewer viewer, Requirement requirement) {
    if (requirement.programmeId != null && programmes.findById(requirement.programmeId) == null) {
      throw new NotHere("There is no such programme here.");
    }
    boolean component = requirement.componentId != null || requirement.partNumber != null;
    if (component != requirement.subject.equals(Subject.COMPONENT)) {
      throw new Refusal("subject", "A component’s requirement is about that component alone.");
    }
  }

  private void check(Viewer viewer, UUID id, String subject, Terms terms) {
    Map<UUID, RequirementRepository.Revised> named = new HashMap<>();
    if (!terms.covers().isEmpty() || !Rules.companions(terms.rule()).isEmpty()) {
      // So that two requirements filed at once can't close a circle between them.
      repository.lockCoverings(viewer.operatorId());
      repository.latestOfAll().forEach(one -> named.put(one.requirement().id(), one));
    }
    List<Refusal.Reason> reasons = new TermsCheck(id, subject, terms, named).reasons();
    if (!reasons.isEmpty()) {
      throw new Refusal(reasons);
    }
  }

  private record Owner(UUID programme, UUID aircraft, UUID component, String partNumber) {

    Owner(NewRequirement asked) {
      this(asked.programmeId(), asked.aircraftId(), asked.componentId(), asked.partNumber());
    }

    Owner(Requirement row) {
      this(row.programmeId, row.aircraftId, row.componentId, row.partNumber);
    }
  }

  /** Every aircraft whose due items a requirement of this owner can move. */
  private void bump(Viewer viewer, Owner owner) {
    Collection<UUID> aircraft;
    if (owner.programme() != null) {
      aircraft = programmes.followers();
    } else if (owner.aircraft() != null) {
      aircraft = List.of(owner.aircraft());
    } else if (owner.partNumber() != null) {
      aircraft = subjects.aircraftWith(viewer, owner.partNumber());
    } else {
      aircraft = subjects.aircraftWith(viewer, owner.component());
    }
    revisions.bump(viewer, aircraft);
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
