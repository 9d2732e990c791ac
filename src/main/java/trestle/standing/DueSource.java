package trestle.standing;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Viewer;

/** Something that knows what falls due on aircraft; rooms above implement it. */
public interface DueSource {

  /**
   * What falls due on each of these aircraft and on what is fitted to them, in a view whose last
   * day is "today". Reads in a number of statements that does not depend on how many aircraft.
   *
   * @return an entry for each aircraft asked for, in no particular order within
   */
  Map<UUID, List<DueItem>> dueItems(Viewer viewer, Collection<UUID> aircraftIds, View view);
}
