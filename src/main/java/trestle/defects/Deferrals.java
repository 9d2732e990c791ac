package trestle.defects;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfiles;
import trestle.programme.DueItems;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.standing.DueItem;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Putting a defect off: by an engineer whose licence is good that day, or by a pilot where the rule
 * profile and the route allow it. The day of discovery is the defect's own, however late it is
 * deferred; a defect is deferred once, and what was wrong with that is put right by a correction.
 */
@ApplicationScoped
public class Deferrals {
  @Inject DeferralRepository repository;
  @Inject DefectBook book;
  @Inject DeferralItems items;
  @Inject DueItems programme;
  @Inject RuleProfiles profiles;
  @Inject Members members;
  @Inject Revisions revisions;
  @Inject Fleet fleet;
  @Inject Signatures signatures;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** A deferral with its defect, what it reckons to now, and the rows it corrected. */
  public record Entry(
      DefectSheet defect, DeferralSheet deferral, DueItem item, boolean stands, long filings) {}

  /**
   * Defers a defect.
   *
   * @return the deferral's id
   * @throws Stale when someone has deferred or rectified it already: nothing was filed
   * @throws Refusal naming the field, when the viewer is not entitled or something is missing
   */
  @Filing
  public UUID defer(Viewer viewer, Proof proof, NewDeferral asked, UUID formKey) {
    DefectSheet defect = locked(viewer, asked.defectEntryId());
    Deferral before = repository.ofForm(Deferral.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    notYetDeferred(viewer, defect);
    Deferral row = decided(viewer, defect, asked);
    row.fromForm(formKey);
    return sign(viewer, proof, defect, row);
  }

  /**
   * Files a deferral that somebody decided before these records began, as old papers have it:
   * copied, not decided. Its days count from the day of discovery as ever.
   */
  @Filing
  public UUID transcribe(Viewer viewer, NewDeferral asked, OldPaper paper, UUID formKey) {
    DefectSheet defect = locked(viewer, asked.defectEntryId());
    Deferral before = repository.ofForm(Deferral.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    notYetDeferred(viewer, defect);
    Deferral row = copied(viewer, defect, asked, paper);
    row.fromForm(formKey);
    return file(viewer, row);
  }

  /**
   * Says what a deferral should have said; the original is kept and shown. The same rules hold as
   * for a new one.
   */
  @Filing
  public UUID correct(
      Viewer viewer, Proof proof, UUID deferralId, NewDeferral asked, String reason, UUID formKey) {
    Deferral original = one(deferralId);
    DefectSheet defect = locked(viewer, original.defectEntryId);
    Deferral before = repository.ofForm(Deferral.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    mayBeCorrected(viewer, defect, original, reason);
    if (original.transcribedFrom != null) {
      throw new Refusal("", "What was copied from old papers is put right as a copy of them.");
    }
    Deferral row = decided(viewer, defect, asked);
    row.correct(deferralId, reason.strip());
    row.fromForm(formKey);
    return sign(viewer, proof, defect, row);
  }

  /** Says what a copy of old papers should have said; the original is kept and shown. */
  @Filing
  public UUID correct(
      Viewer viewer,
      UUID deferralId,
      NewDeferral asked,
      OldPaper paper,
      String reason,
      UUID formKey) {
    Deferral original = one(deferralId);
    DefectSheet defect = locked(viewer, original.defectEntryId);
    Deferral before = repository.ofForm(Deferral.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    mayBeCorrected(viewer, defect, original, reason);
    if (original.transcribedFrom == null) {
      throw new Refusal("", "What was decided here is put right by an engineer or a pilot.");
    }
    if (items.standing(viewer, List.of(original), View.EVERYTHING).isEmpty()) {
      throw new Stale(
          "Defect "
              + defect.no()
              + " was raised to “must not fly” since: an engineer decides about it anew."
              + " Nothing was filed.");
    }
    Deferral row = copied(viewer, defect, asked, paper);
    row.correct(deferralId, reason.strip());
    row.fromForm(formKey);
    return file(viewer, row);
  }

  /** The deferral of which a row is part, as it stands now. */
  @Reading
  public Entry entry(Viewer viewer, UUID deferralId) {
    return entry(viewer, deferralId, View.asAt(viewer.dateOf(clock.instant())));
  }

  /**
   * The deferral of which a row is part, as it stood on a day.
   *
   * @throws NotHere when the operator has no such deferral, or had none that day
   */
  @Reading
  public Entry entry(Viewer viewer, UUID deferralId, View view) {
    Deferral asked = one(deferralId);
    DefectBook.Entry defect = book.entry(viewer, asked.defectEntryId, view);
    List<Deferral> rows = repository.allOf(asked.defectEntryId, view);
    if (rows.isEmpty()) {
      throw new NotHere("Defect " + defect.current().no() + " was not deferred that day.");
    }
    Deferral current = rows.get(rows.size() - 1);
    DeferralSheet sheet =
        DeferralSheet.of(
            current, repository.extensions(List.of(current.defectEntryId), view), viewer.zone());
    boolean ended = items.standing(viewer, List.of(current), view).isEmpty();
    return new Entry(
        defect.current(),
        sheet,
        items.reckoned(viewer, List.of(sheet), view).get(sheet.id()),
        defect.isOpen() && !ended,
        rows.size());
  }

  /** The inspections that a deferral without a list may be due with, the next one first. */
  @Reading
  public List<DueItem> inspections(Viewer viewer, UUID aircraftId, LocalDate day) {
    return programme
        .dueItems(viewer, List.of(aircraftId), View.asAt(day))
        .getOrDefault(aircraftId, List.of())
        .stream()
        .filter(item -> item.isMandatory() && item.kind().equals("inspection"))
        .sorted(trestle.standing.AircraftStanding.BITES_FIRST)
        .toList();
  }

  /** The defect as it stands, its aircraft locked until the commit. */
  private DefectSheet locked(Viewer viewer, UUID defectEntryId) {
    revisions.bump(viewer, book.entry(viewer, defectEntryId).current().aircraftId());
    return book.entry(viewer, defectEntryId).current();
  }

  /** A deferral that the viewer decides, as an engineer or a pilot. */
  private Deferral decided(Viewer viewer, DefectSheet defect, NewDeferral asked) {
    LocalDate day = viewer.dateOf(asked.at());
    RuleProfile profile = profiles.of(viewer, defect.aircraftId(), View.asAt(day));
    DeferralCheck check = new DeferralCheck(viewer, defect, asked, profile);
    check.entitled();
    refuseAgainstHold(defect, asked);
    Members.LicenceLine licence = Deferrer.licence(members, viewer, asked, day);
    check.terms(clock.instant(), inspections(viewer, defect.aircraftId(), day));
    check.notRunOut();
    Deferral row = row(viewer, defect, asked, check);
    row.licenceNumber = licence == null ? "" : licence.number();
    row.licenceKind = licence == null ? "" : licence.kind();
    return row;
  }

  /** A deferral that somebody decided before, as the old papers have it: run out, perhaps. */
  private Deferral copied(Viewer viewer, DefectSheet defect, NewDeferral asked, OldPaper paper) {
    if (!viewer.isAny(Role.CONTROLLER, Role.ENGINEER, Role.OWNER)) {
      throw new Refusal("", "Copying old papers is for engineers, controllers and owners.");
    }
    Instant now = clock.instant();
    RuleProfile profile =
        profiles.of(viewer, defect.aircraftId(), View.asAt(viewer.dateOf(asked.at())));
    DeferralCheck check = new DeferralCheck(viewer, defect, asked, profile);
    check.paper(paper);
    check.terms(now, inspections(viewer, defect.aircraftId(), viewer.dateOf(now)));
    refuseBeforeHold(defect, asked);
    Deferral row = row(viewer, defect, asked, check);
    row.licenceNumber = asked.licenceNumber().strip();
    row.transcribedFrom = paper.transcribedFrom();
    row.signedBy = paper.signedBy();
    return row;
  }

  private static Deferral row(
      Viewer viewer, DefectSheet defect, NewDeferral asked, DeferralCheck check) {
    Deferral row = Deferral.of(defect, asked);
    row.discoveredOn = check.discoveredOn();
    row.inUtc = check.inUtc();
    row.lastDay = check.lastDay();
    row.profileName = check.profileName();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    return row;
  }

  private void notYetDeferred(Viewer viewer, DefectSheet defect) {
    stillOpen(viewer, defect);
    List<Deferral> standing = repository.deferrals(List.of(defect.entryId()), View.EVERYTHING);
    if (!standing.isEmpty()) {
      throw new Stale(
          "Defect "
              + defect.no()
              + " was deferred already, by "
              + name(viewer, standing.get(0).recordedBy())
              + ". Nothing was filed.");
    }
  }

  private void mayBeCorrected(Viewer viewer, DefectSheet defect, Deferral original, String reason) {
    stillOpen(viewer, defect);
    Certifying.reasonNeeded(reason);
    boolean counts =
        repository.deferrals(List.of(defect.entryId()), View.EVERYTHING).stream()
            .anyMatch(row -> row.id().equals(original.id()));
    if (!counts) {
      throw new Stale("Someone has corrected this deferral since you opened this form.");
    }
    if (lastTriage(defect).filter(row -> row.ledgerSeq() > original.ledgerSeq()).isPresent()) {
      throw new Stale("An engineer has ended this deferral by a triage. Nothing was filed.");
    }
    if (!repository.extensions(List.of(defect.entryId()), View.EVERYTHING).isEmpty()) {
      throw new Refusal("", "A deferral that was extended is not corrected: rectify the defect.");
    }
  }

  /** What an engineer holds, an engineer alone defers. */
  private void refuseAgainstHold(DefectSheet defect, NewDeferral asked) {
    if (asked.by() == Role.PILOT && hold(defect).isPresent()) {
      throw new Refusal(
          "by",
          "An engineer holds it, to be put right before the next flight: an engineer decides"
              + " whether it is deferred.");
    }
  }

  /** What was decided before an engineer held it does not lift that, whenever it is copied. */
  private void refuseBeforeHold(DefectSheet defect, NewDeferral asked) {
    if (hold(defect).filter(row -> asked.at().isBefore(row.happenedAt())).isPresent()) {
      throw new Refusal(
          "on",
          "An engineer has held it since, to be put right before the next flight: what was"
              + " decided before that no longer stands.");
    }
  }

  /** The engineer's word that holds a defect, where that is the last one. */
  private Optional<DefectTriage> hold(DefectSheet defect) {
    return lastTriage(defect).filter(row -> row.outcome.equals(Triages.Outcome.HOLDS.word()));
  }

  private Optional<DefectTriage> lastTriage(DefectSheet defect) {
    return repository.triages(List.of(defect.entryId()), View.EVERYTHING).stream()
        .reduce((earlier, later) -> later);
  }

  private void stillOpen(Viewer viewer, DefectSheet defect) {
    if (!book.entry(viewer, defect.entryId()).isOpen()) {
      throw new Stale("Defect " + defect.no() + " was rectified already. Nothing was filed.");
    }
  }

  private Deferral one(UUID deferralId) {
    return repository
        .row(Deferral.class, deferralId)
        .orElseThrow(() -> new NotHere("There is no such deferral here."));
  }

  private String name(Viewer viewer, UUID person) {
    return members.names(viewer).getOrDefault(person, "a former member");
  }

  private UUID sign(Viewer viewer, Proof proof, DefectSheet defect, Deferral row) {
    Signer signer =
        row.role.equals(Role.PILOT.word())
            ? Signer.pilot(row.licenceNumber, false)
            : Signer.engineer(row.licenceNumber);
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("aircraft", fleet.sheet(viewer, row.aircraftId, View.EVERYTHING).registration());
    shown.put("defect", defect.no());
    shown.put("words", defect.defect().words());
    DeferralSheet sheet = DeferralSheet.of(row, List.of(), viewer.zone());
    DeferralWords.facts(defect, sheet, null, viewer.personName())
        .forEach(fact -> shown.put(fact.name(), fact.value()));
    signatures.file(viewer, proof, signer, List.of(Signing.of(row, Certifying.DEFERRED, shown)));
    return row.id();
  }

  private UUID file(Viewer viewer, Deferral row) {
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
    return row.id();
  }
}
