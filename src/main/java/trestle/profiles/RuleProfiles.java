package trestle.profiles;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Reading;
import trestle.web.Viewer;

/** By which rules an operator goes, and an aircraft where it differs. */
@ApplicationScoped
public class RuleProfiles {
  @Inject ProfileRepository repository;

  /**
   * The profile in force in a view.
   *
   * @param aircraftId whose; null for the operator's own
   */
  @Reading
  public RuleProfile of(Viewer viewer, UUID aircraftId, View view) {
    return aircraftId == null
        ? read(viewer, Set.of(), view).get(null)
        : read(viewer, Set.of(aircraftId), view).get(aircraftId);
  }

  /** The profile in force for each of these aircraft, in one statement. */
  @Reading
  public Map<UUID, RuleProfile> ofAll(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, RuleProfile> profiles = read(viewer, new HashSet<>(aircraftIds), view);
    profiles.remove(null);
    return profiles;
  }

  /** By aircraft; the operator's own under null. */
  private Map<UUID, RuleProfile> read(Viewer viewer, Set<UUID> aircraftIds, View view) {
    Map<UUID, ProfileRevision> latest = new HashMap<>();
    repository
        .inForce(aircraftIds, view)
        .forEach(revision -> latest.put(revision.aircraftId, revision));
    RuleProfile own =
        latest.containsKey(null)
            ? ProfileJson.parse(latest.get(null).says)
            : Examples.plain().profile();
    Map<UUID, RuleProfile> profiles = new HashMap<>();
    profiles.put(null, own);
    for (UUID id : aircraftIds) {
      ProfileRevision differing = latest.get(id);
      profiles.put(
          id, differing == null || differing.ended ? own : ProfileJson.parse(differing.says));
    }
    return profiles;
  }
}
