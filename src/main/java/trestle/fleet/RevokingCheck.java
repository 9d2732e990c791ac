package trestle.fleet;

import java.util.Set;
import java.util.UUID;
import trestle.web.Viewer;

/** When records of some kinds can't be taken away: said by the room whose kinds they are. */
public interface RevokingCheck {
  /** The ledger's words. */
  Set<String> kinds();

  /**
   * @throws trestle.web.Refusal with the reason
   */
  void check(Viewer viewer, UUID recordId);

  /** What follows once it is taken away, in the same transaction. */
  default void takenAway(Viewer viewer, UUID recordId) {}
}
