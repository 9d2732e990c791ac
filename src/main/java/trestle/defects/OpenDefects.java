package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.View;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfiles;
import trestle.standing.Ground;
import trestle.web.Reading;
import trestle.web.Viewer;

/** The defects that are open, with what was decided about each. */
@ApplicationScoped
public class OpenDefects {
  @Inject DefectRepository repository;
  @Inject Instance<Decisions> decisions;
  @Inject RuleProfiles profiles;

  /** The open ones of each aircraft in a view, the oldest first, in a few statements for all. */
  @Reading
  public Map<UUID, List<DefectLine>> of(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<DefectLine>> lines = new HashMap<>();
    if (aircraftIds.isEmpty()) {
      return lines;
    }
    List<Defect> open = repository.open(aircraftIds, view);
    Map<UUID, Decision> decided = decided(viewer, open, view);
    Map<UUID, RuleProfile> rules = rules(viewer, open, view);
    for (Defect row : open) {
      lines
          .computeIfAbsent(row.aircraftId, id -> new ArrayList<>())
          .add(line(DefectSheet.of(row), decided.get(row.entryId), rules.get(row.aircraftId)));
    }
    return lines;
  }

  private Map<UUID, RuleProfile> rules(Viewer viewer, List<Defect> open, View view) {
    Set<UUID> aircraft = new HashSet<>();
    open.forEach(row -> aircraft.add(row.aircraftId));
    return aircraft.isEmpty() ? Map.of() : profiles.ofAll(viewer, aircraft, view);
  }

  private Map<UUID, Decision> decided(Viewer viewer, List<Defect> open, View view) {
    List<UUID> entries = open.stream().map(row -> row.entryId).toList();
    Map<UUID, Decision> decided = new HashMap<>();
    if (!entries.isEmpty()) {
      decisions.forEach(each -> decided.putAll(each.of(viewer, entries, view)));
    }
    return decided;
  }

  private static DefectLine line(DefectSheet defect, Decision decision, RuleProfile rules) {
    boolean asReported = decision == null;
    return new DefectLine(
        defect.entryId(),
        defect.aircraftId(),
        defect.number(),
        defect.defect().words(),
        defect.chapter(),
        defect.defect().place(),
        defect.defect().judgement(),
        defect.foundOn(),
        asReported ? "reported" : decision.state(),
        asReported ? untriaged(defect) : decision.words(),
        asReported ? "" : decision.limitation(),
        asReported ? "" : decision.forbids(),
        asReported ? "" : decision.placard(),
        asReported ? null : decision.lastDay(),
        asReported ? "" : decision.lastWords(),
        defect.link(),
        asReported ? "" : decision.link(),
        asReported ? List.of(asReported(defect, rules)) : decision.grounds());
  }

  private static String untriaged(DefectSheet defect) {
    return defect.mustNotFly()
        ? "Reported as must not fly, not yet triaged."
        : "Reported as can fly, not yet triaged.";
  }

  /** What the report alone does, before anybody has looked at it. */
  private static Ground asReported(DefectSheet defect, RuleProfile rules) {
    String sentence =
        "Defect "
            + defect.no()
            + (defect.mustNotFly() ? ", must not fly: " : ", not yet triaged: ")
            + Brief.sentence(defect.defect().words());
    boolean holds = defect.mustNotFly() || rules.untriaged() == RuleProfile.Untriaged.HOLDS;
    return holds ? Ground.held(sentence, defect.link()) : Ground.limited(sentence, defect.link());
  }
}
