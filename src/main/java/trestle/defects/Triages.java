package trestle.defects;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** An engineer looks at a defect and says what it means for flight. */
@ApplicationScoped
public class Triages {
  /** What an engineer says. */
  public enum Outcome {
    HOLDS,
    FLIES;

    String word() {
      return this == HOLDS ? "holds" : "flies";
    }
  }

  /**
   * @param lastSeen how many words there were on it when the form was opened
   */
  public record NewTriage(
      UUID defectEntryId, Outcome outcome, String remark, String licenceNumber, int lastSeen) {}

  @Inject DeferralRepository repository;
  @Inject DeferralItems items;
  @Inject DefectBook book;
  @Inject Members members;
  @Inject Revisions revisions;
  @Inject Fleet fleet;
  @Inject Signatures signatures;
  @Inject InstantSource clock;

  /**
   * Files a word on a defect. "Holds" ends a deferral that stands; "flies" is refused while one
   * does.
   *
   * @throws Stale when somebody said something since the form was opened, or closed the defect
   */
  @Filing
  public UUID triage(Viewer viewer, Proof proof, NewTriage asked, UUID formKey) {
    DefectSheet defect = book.entry(viewer, asked.defectEntryId()).current();
    revisions.bump(viewer, defect.aircraftId());
    DefectTriage before = repository.ofForm(DefectTriage.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    if (!book.entry(viewer, defect.entryId()).isOpen()) {
      throw new Stale("Defect " + defect.no() + " was rectified already. Nothing was filed.");
    }
    if (words(viewer, defect.entryId()) != asked.lastSeen()) {
      throw new Stale(
          "Someone decided about defect "
              + defect.no()
              + " since you opened this form. Nothing was filed.");
    }
    if (!viewer.is(Role.ENGINEER)) {
      throw new Refusal("", "Defects are triaged by an engineer.");
    }
    if (asked.remark() == null || asked.remark().isBlank()) {
      throw new Refusal("remark", "What you found is needed.");
    }
    Instant now = clock.instant();
    Members.LicenceLine licence =
        Deferrer.licence(members, viewer, asked.licenceNumber(), viewer.dateOf(now));
    if (asked.outcome() == Outcome.FLIES && deferred(viewer, defect.entryId())) {
      throw new Refusal(
          "outcome", "It is deferred, and flies on those conditions: rectify it, or hold it.");
    }
    DefectTriage row = new DefectTriage();
    row.aircraftId = defect.aircraftId();
    row.defectEntryId = defect.entryId();
    row.outcome = asked.outcome().word();
    row.remark = asked.remark().strip();
    row.licenceNumber = licence.number();
    row.licenceKind = licence.kind();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("aircraft", fleet.sheet(viewer, row.aircraftId, View.EVERYTHING).registration());
    shown.put("defect", defect.no());
    shown.put("words", defect.defect().words());
    shown.put("outcome", row.outcome);
    shown.put("remark", row.remark);
    signatures.file(
        viewer,
        proof,
        Signer.engineer(row.licenceNumber),
        List.of(Signing.of(row, Certifying.TRIAGED, shown)));
    return row.id();
  }

  /** How much was said on a defect so far: triages and deferrals. */
  @Reading
  public int words(Viewer viewer, UUID defectEntryId) {
    List<UUID> one = List.of(defectEntryId);
    return repository.triages(one, View.EVERYTHING).size()
        + repository.allOf(defectEntryId, View.EVERYTHING).size();
  }

  private boolean deferred(Viewer viewer, UUID defectEntryId) {
    List<Deferral> rows = repository.deferrals(List.of(defectEntryId), View.EVERYTHING);
    return !items.standing(viewer, rows, View.EVERYTHING).isEmpty();
  }
}
