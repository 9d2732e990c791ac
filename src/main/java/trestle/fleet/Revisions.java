package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Arrays;
import java.util.Collection;
import java.util.HashSet;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.UUID;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * A number for each aircraft that every filing moves on if it can move what falls due there. Caches
 * are keyed by it. Its row is also the aircraft's lock: bump it first, and filings on one aircraft
 * wait for one another.
 */
@ApplicationScoped
public class Revisions {
  @Inject AircraftRepository repository;
  @Inject RevisionRepository quick;

  /**
   * Locks the aircraft until the commit and moves their revisions on.
   *
   * @throws NotHere when one of them is not in the viewer's operator
   */
  @Filing
  public void bump(Viewer viewer, UUID... aircraftIds) {
    bump(viewer, Arrays.asList(aircraftIds));
  }

  @Filing
  public void bump(Viewer viewer, Collection<UUID> aircraftIds) {
    Set<UUID> ids = new HashSet<>(aircraftIds);
    if (!ids.isEmpty() && repository.bump(ids) != ids.size()) {
      throw new NotHere("There is no such aircraft here.");
    }
  }

  /** The revision of every aircraft of the operator, in one statement. */
  @Reading
  public Map<UUID, Long> all(Viewer viewer) {
    return repository.allRevisions();
  }

  /**
   * The revision of one aircraft, in one statement and no transaction: all that is to be known
   * where a page is kept.
   */
  public OptionalLong now(Viewer viewer, UUID aircraftId) {
    return quick.revision(viewer.operatorId(), aircraftId);
  }

  @Reading
  public Map<UUID, Long> of(Viewer viewer, Collection<UUID> aircraftIds) {
    return aircraftIds.isEmpty() ? Map.of() : repository.revisions(aircraftIds);
  }
}
