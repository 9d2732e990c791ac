package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.StatedLimits;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.Reading;
import trestle.web.Viewer;

/** The requirements of a part number, for its page. */
@ApplicationScoped
class LimitsOfParts implements StatedLimits {
  @Inject RequirementRecords requirementRecords;
  @Inject Members members;

  @Override
  @Reading
  public List<Stated> ofPart(Viewer viewer, String partNumber) {
    Map<UUID, String> names = members.names(viewer);
    return requirementRecords.ofPart(viewer, partNumber, View.EVERYTHING).stream()
        .filter(one -> !one.latest().withdrawn())
        .map(one -> stated(viewer, one, names))
        .toList();
  }

  private static Stated stated(
      Viewer viewer, RequirementRecords.History history, Map<UUID, String> names) {
    Revision first = history.revisions().get(0);
    Terms terms = history.latest().terms();
    return new Stated(
        history.requirement().id(),
        terms.title(),
        terms.kind().label(),
        history.latest().ruleWords(),
        LifeLimits.Binds.of(terms.force(), terms.forbids()).words(),
        names.getOrDefault(first.recordedBy(), ""),
        viewer.dateOf(first.recordedAt()));
  }
}
