package trestle.records;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.fleet.RevokingCheck;
import trestle.formats.CanonicalJson;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.ledger.Line;
import trestle.ledger.Revocable;
import trestle.ledger.Rows;
import trestle.people.Proof;
import trestle.signing.Signatures;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Takes a record away that was filed by mistake, with nothing in its place: a row alike that names
 * it, with the reason; of what was signed, with a signature of its own. Both are kept and shown.
 */
@ApplicationScoped
class TakingsAway {
  @Inject Histories histories;
  @Inject Rows rows;
  @Inject Revisions revisions;
  @Inject Signatures signatures;
  @Inject Ledger ledger;
  @Inject Instance<RevokingCheck> checks;
  @Inject InstantSource clock;

  /**
   * @param proof who signs; null for a kind that nobody signs
   * @param licence the number of the licence, or ""
   * @return the id of the row that takes the record away
   * @throws NotHere for a record of a kind that is put right otherwise
   * @throws Stale when it was put right already
   */
  @Filing
  public UUID takeAway(
      Viewer viewer, Proof proof, UUID recordId, String reason, String licence, UUID formKey) {
    Line line = histories.line(viewer, recordId);
    Revoking rule = rule(line.kind());
    if (rule.who().stream().noneMatch(viewer::is)) {
      throw new Refusal("", rule.whoWords());
    }
    if (line.aircraftId() != null) {
      revisions.bump(viewer, line.aircraftId());
    }
    Optional<Filed> before = rows.ofForm(line.kind(), formKey);
    if (before.isPresent()) {
      return before.get().id();
    }
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it should not have been filed.");
    }
    Revocable row = revoking(viewer, line, reason.strip());
    row.fromForm(formKey);
    file(viewer, proof, rule, line, row, licence);
    follow(viewer, line);
    return row.id();
  }

  /** All that taking it away does, but that nobody signs for it: to be tried out, never kept. */
  @Filing
  public void tried(Viewer viewer, UUID recordId) {
    Line line = histories.line(viewer, recordId);
    if (line.aircraftId() != null) {
      revisions.bump(viewer, line.aircraftId());
    }
    Revocable row = revoking(viewer, line, "Tried out");
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
    follow(viewer, line);
  }

  private Revocable revoking(Viewer viewer, Line line, String reason) {
    Revocable original =
        rows.revocable(line.kind(), line.recordId())
            .orElseThrow(() -> new NotHere("There is no such record here."));
    if (original.isRevoking() || rows.isCorrected(original)) {
      throw new Stale("This record was put right since you opened this form. Nothing was filed.");
    }
    ofKind(line).forEach(check -> check.check(viewer, line.recordId()));
    return original.revoked(reason);
  }

  private void follow(Viewer viewer, Line line) {
    ofKind(line).forEach(check -> check.takenAway(viewer, line.recordId()));
  }

  private List<RevokingCheck> ofKind(Line line) {
    return checks.stream().filter(check -> check.kinds().contains(line.kind())).toList();
  }

  /**
   * @throws NotHere for a kind that is put right otherwise
   */
  static Revoking rule(String kind) {
    Revoking rule = Revoking.BY_KIND.get(kind);
    if (rule == null) {
      throw new NotHere("A record of this kind is put right otherwise: its page says how.");
    }
    return rule;
  }

  private void file(
      Viewer viewer, Proof proof, Revoking rule, Line line, Revocable row, String licence) {
    Instant now = clock.instant();
    if (!rule.isSigned()) {
      ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
      return;
    }
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("takes-away", line.recordId().toString());
    shown.put("reason", row.reason());
    shown.set("record", CanonicalJson.parse(line.json()));
    signatures.file(
        viewer,
        proof,
        rule.signer(line.kind(), licence),
        List.of(Signing.of(row, Revoking.STATEMENT, shown)));
  }
}
