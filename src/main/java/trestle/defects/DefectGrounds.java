package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.standing.Ground;
import trestle.standing.Grounds;
import trestle.web.Viewer;

/**
 * What holds or limits an aircraft by this room's records: open defects, abnormal events. Deferrals
 * that have run out are among what falls due ({@link DeferralItems}) and hold from there.
 */
@ApplicationScoped
class DefectGrounds implements Grounds {
  @Inject OpenDefects defects;
  @Inject AbnormalEvents events;

  @Override
  public Map<UUID, List<Ground>> grounds(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Ground>> grounds = new HashMap<>();
    events
        .open(viewer, aircraftIds, view)
        .forEach((id, open) -> open.forEach(event -> of(grounds, id).add(event.ground())));
    defects
        .of(viewer, aircraftIds, view)
        .forEach(
            (id, open) ->
                open.stream()
                    .filter(line -> !line.runOut())
                    .forEach(line -> of(grounds, id).addAll(line.grounds())));
    return grounds;
  }

  private static List<Ground> of(Map<UUID, List<Ground>> grounds, UUID aircraftId) {
    return grounds.computeIfAbsent(aircraftId, id -> new ArrayList<>());
  }
}
