package trestle.standing;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Groundings;
import trestle.fleet.Position;
import trestle.ledger.View;
import trestle.web.Viewer;

/** What holds an aircraft by the fleet's own records: a person's grounding, an empty position. */
@ApplicationScoped
class FleetGrounds implements Grounds {
  @Inject Fleet fleet;
  @Inject Groundings groundings;

  @Override
  public Map<UUID, List<Ground>> grounds(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Ground>> grounds = new HashMap<>();
    groundings
        .standing(viewer, aircraftIds, view)
        .forEach((id, standing) -> standing.forEach(each -> add(grounds, id, grounded(each))));
    fleet
        .emptyRequiredPositions(viewer, aircraftIds, view)
        .forEach((id, empty) -> empty.forEach(each -> add(grounds, id, bare(id, each))));
    return grounds;
  }

  private static Ground grounded(Groundings.GroundingSheet grounding) {
    return Ground.held(
        "Grounded on " + InWords.date(grounding.on()) + ": " + ended(grounding.why()),
        "/aircraft/" + grounding.aircraftId() + "/groundings");
  }

  private static Ground bare(UUID aircraftId, Position position) {
    return Ground.held(
        "Nothing is fitted as " + position.label() + ".", "/aircraft/" + aircraftId + "/positions");
  }

  private static String ended(String why) {
    return why.matches("(?s).*[.!?]") ? why : why + ".";
  }

  private static void add(Map<UUID, List<Ground>> grounds, UUID aircraftId, Ground ground) {
    grounds.computeIfAbsent(aircraftId, id -> new ArrayList<>()).add(ground);
  }
}
