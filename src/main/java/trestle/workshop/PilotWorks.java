package trestle.workshop;

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
import trestle.people.Members.LicenceLine;
import trestle.people.Proof;
import trestle.profiles.PilotTask;
import trestle.profiles.RuleProfiles;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * A pilot's own small work: signed by the pilot, only of the rule profile's list, only on an
 * aircraft of which somebody has stated that it is not flown for hire and on whose authority pilots
 * work on it.
 */
@ApplicationScoped
public class PilotWorks {
  public static final String STATEMENT =
      "I did the work stated here myself, as written and to the data named, and approve the aircraft"
          + " for return to service in respect of it alone.";

  @Inject PilotWorkRepository works;
  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject Totals totals;
  @Inject Fleet fleet;
  @Inject RuleProfiles profiles;
  @Inject Members members;
  @Inject Revisions revisions;
  @Inject Signatures signatures;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** What is stated of an aircraft. */
  public record Rule(boolean flownForHire, String authority, LocalDate on) {}

  /**
   * Work that was signed.
   *
   * @param authority by which pilots may work on the aircraft, as stated then
   * @param mine whether the viewer signed it
   * @param reason of a correction; else ""
   */
  public record Done(
      UUID id,
      UUID aircraftId,
      String task,
      String words,
      String data,
      String by,
      Instant at,
      LocalDate on,
      String times,
      String authority,
      boolean mine,
      String licence,
      String reason) {
    public String hours() {
      return totals().get(0).hours();
    }

    /** The aircraft's then, and those of its engines and propellers. */
    public List<Totals.Of> totals() {
      return Totals.read(times);
    }

    public String link() {
      return "/pilot-works/" + id;
    }
  }

  /**
   * Work to sign.
   *
   * @param task of the rule profile's list
   */
  public record NewPilotWork(
      UUID aircraftId,
      String task,
      String words,
      String dataReference,
      Instant at,
      String licenceNumber) {}

  /** States whether an aircraft is flown for hire, and on what authority pilots work on it. */
  @Filing
  public UUID state(
      Viewer viewer, UUID aircraftId, boolean flownForHire, String authority, UUID formKey) {
    if (!viewer.isAny(Role.OWNER, Role.CONTROLLER)) {
      throw new Refusal("", "Owners and controllers state whether pilots may work on it.");
    }
    revisions.bump(viewer, aircraftId);
    PilotWorkRule before = repository.ofForm(PilotWorkRule.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    if (authority == null || authority.isBlank()) {
      throw new Refusal("authority", "Authority must name the rule or document that says so.");
    }
    PilotWorkRule row = new PilotWorkRule();
    row.aircraftId = aircraftId;
    row.flownForHire = flownForHire;
    row.authority = authority.strip();
    Instant now = clock.instant();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
    return row.id();
  }

  /**
   * Signs work.
   *
   * @throws Refusal with the reason, where a pilot may not do it
   */
  @Filing
  public UUID sign(Viewer viewer, Proof proof, NewPilotWork asked, UUID formKey) {
    if (!viewer.is(Role.PILOT)) {
      throw new Refusal("", "A pilot signs a pilot’s own work.");
    }
    revisions.bump(viewer, asked.aircraftId());
    PilotWork before = repository.ofForm(PilotWork.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    PilotWorkRule rule = works.rule(asked.aircraftId()).orElse(null);
    String no = refusal(viewer, rule, asked.aircraftId());
    if (no != null) {
      throw new Refusal("", no);
    }
    check(viewer, asked, null);
    return file(viewer, proof, row(viewer, asked, rule.id()), formKey);
  }

  /**
   * Says what signed work should have said, with a signature of its own; the original is kept.
   *
   * @throws Refusal to anybody but who signed it
   * @throws Stale where it was put right or taken away already
   */
  @Filing
  public UUID correct(
      Viewer viewer, Proof proof, UUID workId, NewPilotWork asked, String reason, UUID formKey) {
    PilotWork original = original(workId);
    revisions.bump(viewer, original.aircraftId);
    PilotWork before = repository.ofForm(PilotWork.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    if (!original.recordedBy().equals(viewer.personId())) {
      throw new Refusal("", "Only who signed this work says what it should have said.");
    }
    if (original.isRevoking() || repository.isCorrected(PilotWork.class, workId)) {
      throw new Stale("This work was put right or taken away already.");
    }
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      throw new Refusal("reason", "Reason is needed, in at most 500 characters.");
    }
    check(viewer, asked, original);
    PilotWork row = row(viewer, asked, original.ruleId);
    row.correct(workId, reason.strip());
    return file(viewer, proof, row, formKey);
  }

  private UUID file(Viewer viewer, Proof proof, PilotWork row, UUID formKey) {
    row.fromForm(formKey);
    signatures.file(
        viewer,
        proof,
        Signer.pilot(row.licenceNumber, true),
        List.of(Signing.of(row, STATEMENT, shown(viewer, row))));
    return row.id();
  }

  /** Why no pilot may work on it, in a sentence; empty where one may. */
  @Reading
  public Optional<String> refusal(Viewer viewer, UUID aircraftId) {
    return Optional.ofNullable(refusal(viewer, works.rule(aircraftId).orElse(null), aircraftId));
  }

  private String refusal(Viewer viewer, PilotWorkRule rule, UUID aircraftId) {
    if (tasks(viewer, aircraftId).isEmpty()) {
      return "The rule profile of this aircraft lets pilots do no work of their own.";
    }
    if (rule == null) {
      return "Nobody has stated that a pilot may work on this aircraft.";
    }
    if (rule.flownForHire) {
      return "It is flown for hire: a pilot does no maintenance on it (14 CFR 43.3(g)).";
    }
    return book.inWork(viewer, List.of(aircraftId), View.EVERYTHING).isEmpty()
        ? null
        : "It is in work under a work order: what is done is signed there.";
  }

  /** What the rule profile lets pilots do. */
  @Reading
  public List<String> tasks(Viewer viewer, UUID aircraftId) {
    return profiles.of(viewer, aircraftId, View.asAt(viewer.dateOf(clock.instant()))).pilotTasks();
  }

  /**
   * @param original of a correction, whose task may stay though the list no longer has it; else
   *     null
   */
  private void check(Viewer viewer, NewPilotWork asked, PilotWork original) {
    boolean kept = original != null && PilotTask.said(original.task).equals(asked.task());
    if (!kept && !tasks(viewer, asked.aircraftId()).contains(asked.task())) {
      throw new Refusal("task", "Work must be of the list that the rule profile has for pilots.");
    }
    if (asked.words() == null || asked.words().isBlank() || asked.words().length() > 2_000) {
      throw new Refusal("words", "What was done must be said, in at most 2,000 characters.");
    }
    if (asked.dataReference() == null
        || asked.dataReference().isBlank()
        || asked.dataReference().length() > 200) {
      throw new Refusal("data-reference", "Data must name what it was done to, in 200 characters.");
    }
    if (asked.at().isAfter(clock.instant())) {
      throw new Refusal("on", "The day it was done must not be in the future.");
    }
  }

  private PilotWork row(Viewer viewer, NewPilotWork asked, UUID ruleId) {
    LicenceLine licence =
        members.licencesOf(viewer, viewer.personId(), viewer.dateOf(asked.at())).stream()
            .filter(one -> one.number().equals(asked.licenceNumber()))
            .findFirst()
            .orElseThrow(
                () ->
                    new Refusal(
                        "licence",
                        "Licence must be one of yours that was good on the day of the work."));
    PilotWork row = new PilotWork();
    row.aircraftId = asked.aircraftId();
    row.ruleId = ruleId;
    row.task = asked.task();
    row.words = asked.words().strip();
    row.dataReference = asked.dataReference().strip();
    row.times = totals.of(viewer, asked.aircraftId()).json(asked.at());
    row.pilotName = viewer.personName();
    row.licenceNumber = licence.number();
    row.licenceKind = licence.kind();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    return row;
  }

  private ObjectNode shown(Viewer viewer, PilotWork row) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("aircraft", fleet.sheet(viewer, row.aircraftId, View.EVERYTHING).registration());
    shown.put("task", PilotTask.said(row.task));
    shown.put("words", row.words);
    shown.put("data", row.dataReference);
    shown.put("on", row.happenedOn().toString());
    shown.put("times", row.times);
    return shown;
  }

  @Reading
  public Optional<Rule> rule(Viewer viewer, UUID aircraftId) {
    return works
        .rule(aircraftId)
        .map(row -> new Rule(row.flownForHire, row.authority, row.happenedOn()));
  }

  /** The last hundred, the newest first. */
  @Reading
  public List<Done> of(Viewer viewer, UUID aircraftId) {
    return works.works(aircraftId).stream().map(row -> done(viewer, row)).toList();
  }

  /**
   * One, whether it counts still or not.
   *
   * @throws NotHere when the operator has no such record
   */
  @Reading
  public Done one(Viewer viewer, UUID workId) {
    return done(viewer, original(workId));
  }

  private PilotWork original(UUID workId) {
    return repository
        .row(PilotWork.class, workId)
        .orElseThrow(() -> new NotHere("There is no such work of a pilot’s here."));
  }

  private Done done(Viewer viewer, PilotWork row) {
    return new Done(
        row.id(),
        row.aircraftId,
        PilotTask.said(row.task),
        row.words,
        row.dataReference,
        row.pilotName + ", " + row.licenceKind + " " + row.licenceNumber,
        row.happenedAt(),
        row.happenedOn(),
        row.times,
        repository.row(PilotWorkRule.class, row.ruleId).map(rule -> rule.authority).orElse(""),
        row.recordedBy().equals(viewer.personId()),
        row.licenceNumber,
        row.reason() == null ? "" : row.reason());
  }
}
