package trestle.standing;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Viewer;

/** Something that can hold or limit an aircraft; rooms above implement it. */
public interface Grounds {

  /** The reasons that stand, by aircraft; an aircraft without any may be left out. */
  Map<UUID, List<Ground>> grounds(Viewer viewer, Collection<UUID> aircraftIds, View view);
}
