package trestle.fleet;

import java.util.UUID;
import trestle.web.Viewer;

/** When a record of a kind can't be taken away: said by the room whose kind it is. */
public interface RevokingCheck {
  /** The ledger's word. */
  String kind();

  /**
   * @throws trestle.web.Refusal with the reason
   */
  void check(Viewer viewer, UUID recordId);

  /** What follows once it is taken away, in the same transaction. */
  default void takenAway(Viewer viewer, UUID recordId) {}
}
