package trestle.fleet;

import java.util.UUID;
import trestle.web.Viewer;

/**
 * Reckons an aircraft's usage again after something that all its flights are read by has changed (a
 * meter, how hours are taken). The flights above implement it, so that the fleet asks downwards.
 */
public interface UsageFollower {

  /** Called in the filing's own transaction, after the rows are filed. */
  void reckonAgain(Viewer viewer, UUID aircraftId);
}
