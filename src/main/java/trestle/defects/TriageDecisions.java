package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.standing.DueItem;
import trestle.standing.Ground;
import trestle.web.Viewer;

/**
 * What engineers and pilots have decided about open defects: the newest word counts, and none that
 * came before its report was raised to "must not fly".
 */
@ApplicationScoped
class TriageDecisions implements Decisions {
  @Inject DeferralRepository repository;
  @Inject DefectRepository defects;
  @Inject DeferralItems items;

  @Override
  public Map<UUID, Decision> of(Viewer viewer, Collection<UUID> defectEntryIds, View view) {
    Map<UUID, Decision> decisions = new HashMap<>();
    List<DefectTriage> triages = repository.triages(defectEntryIds, view);
    List<Deferral> deferrals = repository.deferrals(defectEntryIds, view);
    if (triages.isEmpty() && deferrals.isEmpty()) {
      return decisions;
    }
    Map<UUID, Defect> found = new HashMap<>();
    defects.entries(defectEntryIds, view).forEach(row -> found.put(row.entryId, row));
    Map<UUID, Long> raised = defects.raised(defectEntryIds, view);
    for (DefectTriage row : triages) {
      if (raised.getOrDefault(row.defectEntryId, 0L) < row.ledgerSeq()) {
        decisions.put(row.defectEntryId, triaged(row, found.get(row.defectEntryId)));
      }
    }
    List<DeferralSheet> standing = items.standing(viewer, deferrals, view);
    Map<UUID, DueItem> reckoned = items.reckoned(viewer, standing, view);
    for (DeferralSheet one : standing) {
      decisions.put(
          one.defectEntryId(),
          deferred(one, reckoned.get(one.id()), found.get(one.defectEntryId())));
    }
    return decisions;
  }

  private static Decision triaged(DefectTriage row, Defect defect) {
    boolean holds = row.outcome.equals(Triages.Outcome.HOLDS.word());
    String link = "/defects/" + row.defectEntryId;
    String words =
        holds
            ? "Triaged: to be put right before the next flight. "
            : "Triaged: does not hinder flight. ";
    return new Decision(
        "triaged",
        words + Brief.sentence(row.remark),
        "",
        "",
        "",
        null,
        "",
        "",
        holds
            ? List.of(
                Ground.held(
                    "Defect No. "
                        + defect.number
                        + ", to be put right first: "
                        + Brief.sentence(defect.words),
                    link))
            : List.of());
  }

  private static Decision deferred(DeferralSheet deferral, DueItem item, Defect defect) {
    boolean runOut = item != null && (item.reckoning().spent() || !item.missing().isEmpty());
    NewDeferral.Conditions conditions = deferral.conditions();
    return new Decision(
        runOut ? DefectLine.RUN_OUT : "deferred",
        "Deferred "
            + deferral.by()
            + (item == null ? "" : ", " + item.ruleWords())
            + (runOut ? ": that has run out." : ".")
            + (deferral.isTranscribed()
                ? " Transcribed from " + deferral.transcribedFrom() + "."
                : ""),
        conditions.limitation(),
        conditions.forbids(),
        conditions.placard(),
        deferral.lastDay(),
        deferral.until(),
        deferral.link(),
        grounds(deferral, defect, runOut));
  }

  private static List<Ground> grounds(DeferralSheet deferral, Defect defect, boolean runOut) {
    String which = "Defect No. " + defect.number;
    if (runOut) {
      return List.of(
          Ground.held(
              which + ", its deferral has run out: " + Brief.sentence(defect.words),
              deferral.link()));
    }
    NewDeferral.Conditions conditions = deferral.conditions();
    if (conditions.limitation().isEmpty()) {
      return List.of();
    }
    String not = conditions.forbids().isEmpty() ? "" : ", not " + conditions.forbids();
    return List.of(
        Ground.limited(
            which + " is deferred" + not + ": " + Brief.sentence(conditions.limitation()),
            deferral.link()));
  }
}
