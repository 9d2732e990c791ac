package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Maintenance programmes, which aircraft follow which, and what one registration does not carry.
 */
@ApplicationScoped
public class Programmes {
  @Inject ProgrammeRepository repository;
  @Inject RequirementRepository requirements;
  @Inject Fleet fleet;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * @param from the day from which it stands
   */
  public record NewProgramme(
      String name, String typeName, String sourceReference, LocalDate from, UUID formKey) {}

  /**
   * An aircraft's following of a programme from a day on.
   *
   * @param revision up to which it was taken up; null where it had none yet
   */
  public record Adopted(
      UUID adoptionId,
      UUID aircraftId,
      UUID programmeId,
      String programme,
      Issued revision,
      LocalDate on) {

    /** "Skerry 200, revision 12". */
    public String words() {
      return revision == null ? programme : programme + ", " + revision.words();
    }
  }

  /** What one registration does not carry of its programme, why, and on whose word. */
  public record Excluded(
      UUID exclusionId, UUID requirementId, LocalDate on, String reason, String approvedBy) {}

  /** The programme an aircraft follows, or null; what it followed before; what it is spared. */
  public record Following(Adopted now, List<Adopted> all, Map<UUID, Excluded> excluded) {}

  @Filing
  public UUID create(Viewer viewer, NewProgramme asked) {
    Programme before = asked.formKey() == null ? null : repository.ofForm(asked.formKey());
    if (before != null) {
      return before.id();
    }
    Programme programme = programme(asked);
    programme.happened(start(viewer, asked.from()), asked.from());
    programme.fromForm(asked.formKey());
    file(viewer, programme);
    return programme.id();
  }

  /** Puts the name, the type or the source right; the programme stays the same one. */
  @Filing
  public void correct(
      Viewer viewer, UUID programmeId, UUID rowId, NewProgramme asked, String reason) {
    ProgrammeSheet sheet = sheet(viewer, programmeId);
    if (!sheet.rowId().equals(rowId)) {
      throw new Stale("Someone changed “" + sheet.name() + "” since you opened this form.");
    }
    needReason(reason, "say why it changes.");
    Programme programme = programme(asked);
    programme.happened(start(viewer, sheet.from()), sheet.from());
    programme.correct(rowId, reason);
    file(viewer, programme);
  }

  /** An aircraft follows a programme in the revision that was issued last by that day. */
  @Filing
  public void adopt(
      Viewer viewer, UUID aircraftId, UUID programmeId, LocalDate on, String reason, UUID formKey) {
    UUID newest =
        repository.revisions(Set.of(programmeId), Records.ALL).stream()
            .filter(issued -> !issued.on().isAfter(on))
            .reduce((earlier, later) -> later)
            .map(Issued::id)
            .orElse(null);
    adopt(viewer, aircraftId, programmeId, newest, on, reason, formKey);
  }

  /**
   * An aircraft follows a programme from a day on, and no longer the one before. What was done
   * under that stays done: state on each new requirement from where it counts.
   *
   * @param revisionId the programme's revision that it takes up; null for what the programme said
   *     before it had any
   */
  @Filing
  public void adopt(
      Viewer viewer,
      UUID aircraftId,
      UUID programmeId,
      UUID revisionId,
      LocalDate on,
      String reason,
      UUID formKey) {
    revisions.bump(viewer, aircraftId);
    notLater(viewer, on, "on");
    sheet(viewer, programmeId);
    if (repository.filed(ProgrammeAdoption.class, formKey)) {
      return;
    }
    ProgrammeAdoption adoption = new ProgrammeAdoption();
    adoption.aircraftId = aircraftId;
    adoption.programmeId = programmeId;
    adoption.programmeRevision = revisionId == null ? null : issued(programmeId, revisionId, on);
    adoption.happened(start(viewer, on), on);
    adoption.because(reason);
    adoption.fromForm(formKey);
    file(viewer, adoption);
  }

  private UUID issued(UUID programmeId, UUID revisionId, LocalDate on) {
    Issued issued =
        repository.revisions(Set.of(programmeId), Records.ALL).stream()
            .filter(one -> one.id().equals(revisionId))
            .findFirst()
            .orElseThrow(() -> new NotHere("There is no such revision of that programme here."));
    if (issued.on().isAfter(on)) {
      throw new Refusal(
          "on", "From must not be before the day from which " + issued.words() + " is in force.");
    }
    return revisionId;
  }

  /** One registration does not carry a requirement of its programme, from a day on. */
  @Filing
  public void exclude(
      Viewer viewer,
      UUID aircraftId,
      UUID requirementId,
      LocalDate on,
      String reason,
      String approvedBy,
      UUID formKey) {
    file(viewer, aircraftId, requirementId, on, reason, approvedBy, false, formKey);
  }

  /** It carries it again. */
  @Filing
  public void include(
      Viewer viewer,
      UUID aircraftId,
      UUID requirementId,
      LocalDate on,
      String reason,
      String approvedBy,
      UUID formKey) {
    file(viewer, aircraftId, requirementId, on, reason, approvedBy, true, formKey);
  }

  /** Every programme, by name. */
  @Reading
  public List<ProgrammeSheet> all(Viewer viewer, View view) {
    Map<UUID, ProgrammeSheet> byRow = new LinkedHashMap<>();
    for (Programme row : repository.all(view)) {
      ProgrammeSheet corrected = row.corrects() == null ? null : byRow.remove(row.corrects());
      byRow.put(row.id(), sheet(row, corrected == null ? row.id() : corrected.id()));
    }
    return byRow.values().stream().sorted(Comparator.comparing(ProgrammeSheet::name)).toList();
  }

  /**
   * @throws NotHere when the operator has no such programme
   */
  @Reading
  public ProgrammeSheet sheet(Viewer viewer, UUID programmeId) {
    return all(viewer, Records.ALL).stream()
        .filter(sheet -> sheet.id().equals(programmeId))
        .findFirst()
        .orElseThrow(() -> new NotHere("There is no such programme here."));
  }

  /** What one aircraft follows, and is spared, in a view. */
  @Reading
  public Following following(Viewer viewer, UUID aircraftId, View view) {
    Map<UUID, String> names = new LinkedHashMap<>();
    all(viewer, Records.ALL).forEach(sheet -> names.put(sheet.id(), sheet.name()));
    List<ProgrammeRepository.Adoption> rows = repository.adoptions(Set.of(aircraftId), view);
    Map<UUID, Issued> issued = new LinkedHashMap<>();
    repository
        .revisions(rows.stream().map(ProgrammeRepository.Adoption::programmeId).toList(), view)
        .forEach(one -> issued.put(one.id(), one));
    List<Adopted> adopted = new ArrayList<>();
    rows.forEach(row -> adopted.add(0, adopted(row, names, issued)));
    Map<UUID, Excluded> excluded = new LinkedHashMap<>();
    for (ProgrammeRepository.Exclusion row : repository.exclusions(Set.of(aircraftId), view)) {
      if (row.ended()) {
        excluded.remove(row.requirementId());
      } else {
        excluded.put(
            row.requirementId(),
            new Excluded(row.id(), row.requirementId(), row.on(), row.reason(), row.approvedBy()));
      }
    }
    return new Following(adopted.isEmpty() ? null : adopted.get(0), adopted, excluded);
  }

  /** The aircraft that follow a programme in a view. */
  @Reading
  public List<UUID> followers(Viewer viewer, UUID programmeId, View view) {
    return List.copyOf(taken(viewer, programmeId, view).keySet());
  }

  /** The aircraft that follow a programme in a view, each with its revision's id, or "". */
  @Reading
  public Map<UUID, String> taken(Viewer viewer, UUID programmeId, View view) {
    List<UUID> all = repository.followers();
    if (all.isEmpty()) {
      return Map.of();
    }
    Map<UUID, ProgrammeRepository.Adoption> followed = new LinkedHashMap<>();
    repository
        .adoptions(all, view)
        .forEach(adoption -> followed.put(adoption.aircraftId(), adoption));
    followed.values().removeIf(adoption -> !adoption.programmeId().equals(programmeId));
    Map<UUID, String> taken = new LinkedHashMap<>();
    followed.forEach(
        (id, adoption) ->
            taken.put(id, adoption.revision() == null ? "" : adoption.revision().toString()));
    return taken;
  }

  private void file(
      Viewer viewer,
      UUID aircraftId,
      UUID requirementId,
      LocalDate on,
      String reason,
      String approvedBy,
      boolean ended,
      UUID formKey) {
    revisions.bump(viewer, aircraftId);
    if (repository.filed(RequirementExclusion.class, formKey)) {
      return;
    }
    notLater(viewer, on, "on");
    needReason(reason, ended ? "say why it is carried again." : "say why it is not carried.");
    if (approvedBy == null || approvedBy.isBlank()) {
      throw new Refusal("approved-by", "Approved by is needed: say who approved it.");
    }
    Requirement requirement = requirements.findById(requirementId);
    if (requirement == null || requirement.programmeId == null) {
      throw new NotHere("There is no such requirement of a programme here.");
    }
    RequirementExclusion exclusion = new RequirementExclusion();
    exclusion.requirementId = requirementId;
    exclusion.aircraftId = aircraftId;
    exclusion.ended = ended;
    exclusion.approvedBy = approvedBy.strip();
    exclusion.happened(start(viewer, on), on);
    exclusion.because(reason);
    exclusion.fromForm(formKey);
    file(viewer, exclusion);
  }

  private static Programme programme(NewProgramme asked) {
    if (asked.name().isBlank() || asked.name().strip().length() > 120) {
      throw new Refusal("name", "Name needs 1 to 120 characters.");
    }
    Programme programme = new Programme();
    programme.name = asked.name().strip();
    programme.typeName = asked.typeName().strip();
    programme.sourceReference = asked.sourceReference().strip();
    return programme;
  }

  private static ProgrammeSheet sheet(Programme row, UUID id) {
    return new ProgrammeSheet(
        id, row.id(), row.name, row.typeName, row.sourceReference, row.happenedOn());
  }

  private static Adopted adopted(
      ProgrammeRepository.Adoption row, Map<UUID, String> names, Map<UUID, Issued> issued) {
    return new Adopted(
        row.id(),
        row.aircraftId(),
        row.programmeId(),
        names.get(row.programmeId()),
        row.revision() == null ? null : issued.get(row.revision()),
        row.on());
  }

  private static void needReason(String reason, String what) {
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: " + what);
    }
  }

  private void notLater(Viewer viewer, LocalDate day, String field) {
    if (day.isAfter(viewer.dateOf(clock.instant()))) {
      throw new Refusal(field, "The day must not be in the future.");
    }
  }

  private static Instant start(Viewer viewer, LocalDate day) {
    return day.atStartOfDay(viewer.zone()).toInstant();
  }

  private void file(Viewer viewer, Filed row) {
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }
}
