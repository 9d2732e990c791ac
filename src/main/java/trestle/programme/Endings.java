package trestle.programme;

import java.util.Collection;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Viewer;

/**
 * Something that knows when a requirement need not be done any more without being withdrawn, such
 * as by the terminating action of its directive; rooms above implement it.
 */
public interface Endings {

  /** Which of these requirements of kind directive have ended in the view. */
  Set<UUID> ended(Viewer viewer, Collection<UUID> requirementIds, View view);
}
