package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.ComponentHistory;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.programme.NewRequirement;
import trestle.programme.NewRevision;
import trestle.programme.RequirementRecords;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.standing.Subject;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * What is judged of paragraphs, for each aircraft and part. Where one applies, its requirement is
 * opened once for that aircraft or part; judged again under a revision, the same requirement is
 * revised, so that what was done before still counts.
 */
@ApplicationScoped
public class Assessments {
  @Inject DirectiveRepository repository;
  @Inject Directives directives;
  @Inject Requirements requirements;
  @Inject RequirementRecords requirementRecords;
  @Inject Components components;
  @Inject Fleet fleet;
  @Inject Conditions conditions;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * Files what somebody judged.
   *
   * @return the id of its record
   * @throws Refusal naming the field that can't stand, or when the item is not among those named
   * @throws Stale when somebody revised the paragraph since the form was opened
   */
  @Filing
  public UUID assess(Viewer viewer, NewAssessment asked) {
    if (!viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)) {
      throw new Refusal("", "Directives are assessed by owners, controllers and engineers.");
    }
    ParagraphSheet paragraph = directives.paragraph(viewer, asked.paragraphId());
    Item item = item(viewer, asked.aircraftId(), asked.componentId());
    if (item.aircraftId() != null) {
      revisions.bump(viewer, item.aircraftId());
    }
    repository.lock(paragraph.id() + " " + item.id());
    var before = repository.ofForm(DirectiveAssessment.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    if (!paragraph.rowId().equals(asked.paragraphRow())) {
      throw new Stale("Someone revised “" + paragraph.words() + "” since you opened this form.");
    }
    DirectiveSheet directive = inForce(viewer, paragraph);
    check(viewer, directive, paragraph, item, asked);
    DirectiveAssessment row = row(viewer, directive, paragraph, item, asked);
    if (asked.verdict() == Verdict.APPLIES) {
      row.requirementId = opened(viewer, directive, paragraph, item);
    }
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
    return row.id();
  }

  /**
   * An aircraft, or a part with what it is fitted to now.
   *
   * @throws NotHere when the operator has none such
   */
  @Reading
  public Item item(Viewer viewer, UUID aircraftId, UUID componentId) {
    View now = View.asAt(today(viewer));
    if (componentId != null) {
      ComponentHistory component = components.history(viewer, componentId, now);
      return Item.of(component.sheet(), component.fitted());
    }
    if (aircraftId == null) {
      throw new NotHere("Say for which aircraft or part it is assessed.");
    }
    return Item.of(fleet.sheet(viewer, aircraftId, now));
  }

  /** How a paragraph, as last stated, stands for one item today. */
  @Reading
  public Judged judged(
      Viewer viewer, DirectiveSheet directive, ParagraphSheet paragraph, Item item) {
    return Judged.of(
        directive,
        paragraph,
        item,
        condition(viewer, paragraph, item),
        of(paragraph, item),
        today(viewer));
  }

  private Conditions.Condition condition(Viewer viewer, ParagraphSheet paragraph, Item item) {
    List<UUID> on = item.aircraftId() == null ? List.of() : List.of(item.aircraftId());
    return conditions
        .of(viewer, List.of(paragraph), on, View.asAt(today(viewer)))
        .of(paragraph, item.aircraftId());
  }

  /** All that was judged of a paragraph for one item, oldest first. */
  @Reading
  public List<AssessmentSheet> history(Viewer viewer, ParagraphSheet paragraph, Item item) {
    return of(paragraph, item);
  }

  private List<AssessmentSheet> of(ParagraphSheet paragraph, Item item) {
    return repository.ofParagraphs(Set.of(paragraph.id()), View.EVERYTHING).stream()
        .filter(one -> one.subjectId().equals(item.id()))
        .toList();
  }

  private void check(
      Viewer viewer,
      DirectiveSheet directive,
      ParagraphSheet paragraph,
      Item item,
      NewAssessment asked) {
    boolean asks =
        Status.InForce.of(repository.directives(View.asAt(today(viewer))))
                .containsKey(directive.id())
            || Status.InForce.of(repository.directives(View.EVERYTHING))
                .containsKey(directive.id());
    if (!asks || paragraph.withdrawn()) {
      throw new Refusal("", directive.number() + " asks for nothing any more.");
    }
    // What was opened for it while it was named can still be judged away.
    boolean opened =
        asked.verdict() == Verdict.DOES_NOT
            && repository.requirement(paragraph.id(), item.id()) != null;
    if (!opened && paragraph.applicability().covers(item.name(), item.serial()) == Covered.NO) {
      throw new Refusal("", item.words() + " is not among those it names: " + paragraph.whom());
    }
    if (condition(viewer, paragraph, item).holds() == Covered.NO) {
      throw new Refusal(
          "", paragraph.condition() + " The configuration of its aircraft says otherwise.");
    }
    if (paragraph.applicability().ofComponents() != item.isComponent()) {
      throw new Refusal("", "That paragraph is not about this kind of thing.");
    }
    if (asked.at().isAfter(clock.instant())) {
      throw new Refusal("on", "Assessed on must not be in the future.");
    }
    boolean why = asked.why() != null && !asked.why().isBlank();
    if (asked.verdict() != Verdict.APPLIES && !why) {
      throw new Refusal("why", "Reason is needed: say why it does not apply, or is waived.");
    }
    if (asked.verdict() == Verdict.WAIVED && asked.lastDay() == null) {
      throw new Refusal("last-day", "Waived until is needed: a waiver has an end.");
    }
    if (asked.verdict() == Verdict.WAIVED && asked.lastDay().isBefore(today(viewer))) {
      throw new Refusal("last-day", "Waived until must not be in the past.");
    }
  }

  private DirectiveAssessment row(
      Viewer viewer,
      DirectiveSheet directive,
      ParagraphSheet paragraph,
      Item item,
      NewAssessment asked) {
    DirectiveAssessment row = new DirectiveAssessment();
    row.paragraphId = paragraph.id();
    row.paragraphRow = paragraph.rowId();
    row.revision = directive.revision();
    row.effectiveOn = directive.effectiveOn();
    row.aircraftId = item.aircraftId();
    row.componentId = item.componentId();
    row.subjectName = item.name();
    row.subjectSerial = item.serial();
    boolean ofPart = item.isComponent() && asked.ofPart() && asked.verdict() != Verdict.WAIVED;
    row.restsOn = ofPart ? AssessmentSheet.PART : AssessmentSheet.INSTALLATION;
    row.verdict = asked.verdict().word();
    row.why = asked.why() == null ? "" : asked.why().strip();
    row.lastDay = asked.verdict() == Verdict.WAIVED ? asked.lastDay() : null;
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    return row;
  }

  /** The revision that is in force today: one that takes effect later asks for it anew then. */
  private DirectiveSheet inForce(Viewer viewer, ParagraphSheet paragraph) {
    DirectiveSheet now =
        Status.InForce.of(repository.directives(View.asAt(today(viewer))))
            .get(paragraph.directiveId());
    return now == null ? directives.one(viewer, paragraph.directiveId()) : now;
  }

  /** The requirement of this paragraph and item: the one opened before, or a new one. */
  private UUID opened(
      Viewer viewer, DirectiveSheet directive, ParagraphSheet paragraph, Item item) {
    Terms terms = Directives.terms(directive, paragraph);
    UUID before = repository.requirement(paragraph.id(), item.id());
    if (before != null) {
      RequirementRecords.History history = requirementRecords.history(viewer, before);
      if (history.latest().terms().equals(terms)) {
        return before;
      }
      if (!history.latest().withdrawn()) {
        requirements.revise(
            viewer,
            new NewRevision(
                before,
                history.latest().id(),
                terms,
                directive.effectiveOn(),
                directive.name(),
                directive.issuer(),
                null));
        return before;
      }
    }
    LocalDate from = directive.effectiveOn();
    return requirements.create(
        viewer,
        item.isComponent()
            ? NewRequirement.ofComponent(item.componentId(), terms, from, directive.issuer())
            : NewRequirement.ofAircraft(
                item.aircraftId(), Subject.AIRCRAFT, terms, from, directive.issuer()));
  }

  private LocalDate today(Viewer viewer) {
    return viewer.dateOf(clock.instant());
  }
}
