package trestle.defects;

import java.util.Collection;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Viewer;

/** What persons have decided about open defects; triage and deferral implement it. */
interface Decisions {

  /** The standing decision of each defect, by its entry; one without any is left out. */
  Map<UUID, Decision> of(Viewer viewer, Collection<UUID> defectEntryIds, View view);
}
