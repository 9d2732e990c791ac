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
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * A pilot's own small work: signed by the pilot, only of the short list, only on an aircraft of
 * which somebody has stated that it is not flown for hire and on whose authority pilots work on it.
 */
@ApplicationScoped
public class PilotWorks {
  static final String STATEMENT =
      "I did the work stated here myself, as written and to the data named, and approve the aircraft"
          + " for return to service in respect of it alone.";

  @Inject PilotWorkRepository works;
  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject Totals totals;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject Revisions revisions;
  @Inject Signatures signatures;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** What is stated of an aircraft. */
  public record Rule(boolean flownForHire, String authority, LocalDate on) {}

  /** Work that was signed. */
  public record Done(
      UUID id, PilotTask task, String words, String data, String by, LocalDate on, String times) {
    public String hours() {
      return Totals.read(times).get(0).hours();
    }
  }

  /** Work to sign. */
  public record NewPilotWork(
      UUID aircraftId,
      PilotTask task,
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
    check(asked);
    PilotWork row = row(viewer, asked, rule);
    row.fromForm(formKey);
    signatures.file(
        viewer,
        proof,
        Signer.pilot(asked.licenceNumber(), true),
        List.of(Signing.of(row, STATEMENT, shown(viewer, row))));
    return row.id();
  }

  /** Why no pilot may work on it, in a sentence; empty where one may. */
  @Reading
  public Optional<String> refusal(Viewer viewer, UUID aircraftId) {
    return Optional.ofNullable(refusal(viewer, works.rule(aircraftId).orElse(null), aircraftId));
  }

  private String refusal(Viewer viewer, PilotWorkRule rule, UUID aircraftId) {
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

  private void check(NewPilotWork asked) {
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

  private PilotWork row(Viewer viewer, NewPilotWork asked, PilotWorkRule rule) {
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
    row.ruleId = rule.id();
    row.task = asked.task().word();
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
    shown.put("task", PilotTask.parse(row.task).label());
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
    return works.works(aircraftId).stream()
        .map(
            row ->
                new Done(
                    row.id(),
                    PilotTask.parse(row.task),
                    row.words,
                    row.dataReference,
                    row.pilotName + ", " + row.licenceKind + " " + row.licenceNumber,
                    row.happenedOn(),
                    row.times))
        .toList();
  }
}
