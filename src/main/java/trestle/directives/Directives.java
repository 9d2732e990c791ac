package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.programme.Presence;
import trestle.programme.RequirementKind;
import trestle.programme.Requirements;
import trestle.programme.RuleJson;
import trestle.programme.Terms;
import trestle.standing.Force;
import trestle.standing.Subject;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Directives and bulletins: entered, revised, superseded, and what each paragraph asks of whom. */
@ApplicationScoped
public class Directives {
  @Inject DirectiveRepository repository;
  @Inject DirectiveFiles files;
  @Inject Requirements requirements;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * Enters a directive or bulletin.
   *
   * @return its id
   * @throws Refusal when that issuer's number is here already
   */
  @Filing
  public UUID enter(Viewer viewer, NewDirective asked, UUID formKey) {
    everythingMoves(viewer);
    var before = repository.ofForm(Directive.class, formKey);
    if (before.isPresent()) {
      return before.get().directiveId;
    }
    check(viewer, null, asked);
    Directive row = row(viewer, asked);
    row.directiveId = row.id();
    row.fromForm(formKey);
    file(viewer, row);
    return row.directiveId;
  }

  /**
   * Files a revision. With another revision or effective date everything it names is to be assessed
   * again; without, it puts the writing right and what was assessed stands.
   *
   * @param revises the row that the person saw
   * @param withdrawn it asks for nothing any more, from its effective date on
   * @throws Stale when somebody revised it since the form was opened
   */
  @Filing
  public void revise(
      Viewer viewer,
      UUID directiveId,
      UUID revises,
      NewDirective asked,
      boolean withdrawn,
      String reason,
      UUID formKey) {
    everythingMoves(viewer);
    DirectiveSheet newest = one(viewer, directiveId);
    if (repository.ofForm(Directive.class, formKey).isPresent()) {
      return;
    }
    if (!newest.rowId().equals(revises)) {
      throw new Stale("Someone revised " + newest.number() + " since you opened this form.");
    }
    needReason(reason);
    check(viewer, directiveId, asked);
    Directive row = row(viewer, asked);
    row.directiveId = directiveId;
    row.revises = revises;
    row.withdrawn = withdrawn;
    if (asked.file() == null) {
      row.fileSha256 = newest.fileSha256();
    }
    row.because(reason.strip());
    row.fromForm(formKey);
    file(viewer, row);
  }

  /**
   * Adds a paragraph.
   *
   * @return its id
   */
  @Filing
  public UUID addParagraph(Viewer viewer, UUID directiveId, NewParagraph asked, UUID formKey) {
    everythingMoves(viewer);
    DirectiveSheet directive = one(viewer, directiveId);
    var before = repository.ofForm(DirectiveParagraph.class, formKey);
    if (before.isPresent()) {
      return before.get().paragraphId;
    }
    DirectiveParagraph row = row(viewer, directive, null, asked);
    row.paragraphId = row.id();
    row.fromForm(formKey);
    file(viewer, row);
    return row.paragraphId;
  }

  /**
   * Says anew what a paragraph says; all that it names is to be assessed again.
   *
   * @throws Stale when somebody did so since the form was opened
   */
  @Filing
  public void reviseParagraph(
      Viewer viewer,
      UUID paragraphId,
      UUID revises,
      NewParagraph asked,
      boolean withdrawn,
      String reason,
      UUID formKey) {
    everythingMoves(viewer);
    ParagraphSheet newest = paragraph(viewer, paragraphId);
    if (repository.ofForm(DirectiveParagraph.class, formKey).isPresent()) {
      return;
    }
    if (!newest.rowId().equals(revises)) {
      throw new Stale("Someone revised “" + newest.words() + "” since you opened this form.");
    }
    needReason(reason);
    DirectiveParagraph row = row(viewer, one(viewer, newest.directiveId()), newest.id(), asked);
    row.paragraphId = paragraphId;
    row.revises = revises;
    row.withdrawn = withdrawn;
    row.because(reason.strip());
    row.fromForm(formKey);
    file(viewer, row);
  }

  /** Every directive as last stated, by number, also those that take effect later. */
  @Reading
  public List<DirectiveSheet> all(Viewer viewer) {
    return repository.directives(View.EVERYTHING);
  }

  /**
   * @throws NotHere when the operator has no such directive
   */
  @Reading
  public DirectiveSheet one(Viewer viewer, UUID directiveId) {
    List<DirectiveSheet> all = history(viewer, directiveId);
    return all.get(all.size() - 1);
  }

  /** Every row of one directive, oldest first. */
  @Reading
  public List<DirectiveSheet> history(Viewer viewer, UUID directiveId) {
    List<DirectiveSheet> all = repository.history(directiveId);
    if (all.isEmpty()) {
      throw new NotHere("There is no such directive here.");
    }
    return all;
  }

  /** Its paragraphs as last stated, those that were taken away too. */
  @Reading
  public List<ParagraphSheet> paragraphs(Viewer viewer, UUID directiveId) {
    return repository.paragraphsOf(directiveId);
  }

  /**
   * @throws NotHere when the operator has no such paragraph
   */
  @Reading
  public ParagraphSheet paragraph(Viewer viewer, UUID paragraphId) {
    return repository
        .paragraph(paragraphId)
        .orElseThrow(() -> new NotHere("There is no such paragraph here."));
  }

  /** What a paragraph asks for, as the requirement that it opens. */
  static Terms terms(DirectiveSheet directive, ParagraphSheet paragraph) {
    boolean binds = directive.mandatory() && !paragraph.optional();
    return new Terms(
        shortened(directive.number() + " " + paragraph.words(), 120),
        directive.bulletin() ? RequirementKind.OTHER : RequirementKind.DIRECTIVE,
        paragraph.rule(),
        directive.effectiveOn(),
        binds ? Force.MANDATORY : Force.RECOMMENDED,
        paragraph.forbids(),
        List.of(),
        paragraph.toleranceCondition(),
        paragraph.toleranceSource(),
        shortened(
            directive.issuer()
                + " "
                + directive.name()
                + (directive.textReference().isEmpty() ? "" : "; " + directive.textReference()),
            300),
        null,
        null,
        Presence.ANYWHERE);
  }

  private static String shortened(String text, int most) {
    return text.length() <= most ? text : text.substring(0, most - 1) + "…";
  }

  /** Whom it names is not worked out before it is filed: whoever it may be reads it anew. */
  private void everythingMoves(Viewer viewer) {
    revisions.bump(viewer, revisions.all(viewer).keySet());
    repository.lock(viewer.operatorId());
  }

  private void check(Viewer viewer, UUID directiveId, NewDirective asked) {
    List<Refusal.Reason> faults = new ArrayList<>();
    length(faults, "issuer", "Issuer", asked.issuer(), 80);
    length(faults, "number", "Number", asked.number(), 60);
    length(faults, "title", "Title", asked.title(), 120);
    Set<UUID> others = new HashSet<>();
    for (DirectiveSheet other : all(viewer)) {
      if (!other.id().equals(directiveId)) {
        others.add(other.id());
        if (other.issuer().equalsIgnoreCase(asked.issuer().strip())
            && other.number().equalsIgnoreCase(asked.number().strip())) {
          faults.add(new Refusal.Reason("number", "Number is here already: revise that one."));
        }
      }
    }
    if (!others.containsAll(asked.supersedes())) {
      faults.add(new Refusal.Reason("supersedes", "Supersedes must be among those shown."));
    }
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private Directive row(Viewer viewer, NewDirective asked) {
    Directive row = new Directive();
    row.issuer = asked.issuer().strip();
    row.number = asked.number().strip();
    row.kind = asked.bulletin() ? DirectiveSheet.BULLETIN : DirectiveSheet.DIRECTIVE;
    row.mandatory = asked.mandatory();
    row.revision = asked.revision().strip();
    row.effectiveOn = asked.effectiveOn();
    row.title = asked.title().strip();
    row.textReference = asked.textReference().strip();
    row.supersedes = asked.supersedes().toArray(UUID[]::new);
    if (asked.file() != null) {
      files.keep(viewer, asked.file());
      row.fileSha256 = asked.file().sha256();
    }
    row.happened(startOf(viewer, asked.effectiveOn()), asked.effectiveOn());
    return row;
  }

  private DirectiveParagraph row(
      Viewer viewer, DirectiveSheet directive, UUID paragraphId, NewParagraph asked) {
    DirectiveParagraph row = new DirectiveParagraph();
    row.directiveId = directive.id();
    row.label = asked.label().strip();
    row.title = asked.title().strip();
    row.about = asked.applicability().about().word();
    row.names = asked.applicability().names().toArray(String[]::new);
    row.serials = asked.applicability().serials().words();
    row.modification = asked.modification().strip();
    row.modificationPresent = asked.modificationPresent();
    row.rule = RuleJson.text(asked.rule());
    row.forbids = asked.forbids().strip();
    row.toleranceSource = asked.toleranceSource().strip();
    row.toleranceCondition = asked.toleranceCondition().strip();
    row.terminates = asked.terminates().toArray(UUID[]::new);
    row.optional = asked.optional();
    row.happened(startOf(viewer, directive.effectiveOn()), directive.effectiveOn());
    checkParagraph(viewer, directive, paragraphId, asked, row);
    return row;
  }

  private void checkParagraph(
      Viewer viewer,
      DirectiveSheet directive,
      UUID paragraphId,
      NewParagraph asked,
      DirectiveParagraph row) {
    List<Refusal.Reason> faults = new ArrayList<>();
    length(faults, "title", "Title", asked.title(), 90);
    boolean parts = asked.applicability().ofComponents();
    faults.addAll(
        requirements.faults(
            viewer, parts ? Subject.COMPONENT : Subject.AIRCRAFT, terms(directive, row.sheet())));
    Set<UUID> siblings = new HashSet<>();
    paragraphs(viewer, directive.id()).forEach(one -> siblings.add(one.id()));
    siblings.remove(paragraphId);
    if (!siblings.containsAll(asked.terminates())) {
      faults.add(
          new Refusal.Reason("terminates", "Ends must be among the directive’s other paragraphs."));
    }
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private static void length(
      List<Refusal.Reason> faults, String field, String label, String value, int most) {
    if (value.isBlank()) {
      faults.add(new Refusal.Reason(field, label + " is needed."));
    } else if (value.strip().length() > most) {
      faults.add(new Refusal.Reason(field, label + " must be at most " + most + " characters."));
    }
  }

  private static void needReason(String reason) {
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it is revised.");
    }
  }

  private static Instant startOf(Viewer viewer, LocalDate day) {
    return day.atStartOfDay(viewer.zone()).toInstant();
  }

  private void file(Viewer viewer, Filed row) {
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }
}
