package trestle.programme;

import java.time.Instant;
import java.util.Map;
import trestle.reckoning.Counter;
import trestle.reckoning.Reading;
import trestle.reckoning.Usage;
import trestle.reckoning.Utilisation;
import trestle.standing.Subject;

/** How the counters of one subject ran, as far as reckoning asks. */
interface SubjectLine {

  Subject subject();

  /** The totals at the end of the view; a counter that is not listed is not known. */
  Usage now();

  /** The totals at a place in the sequence of flights; a counter not listed is not known then. */
  Usage at(Instant moment);

  /** The named origins that are known: new, overhaul, fitted. */
  Map<String, Reading> origins();

  Utilisation utilisation();

  /** A component's part number; null for an aircraft. */
  default String partNumber() {
    return null;
  }

  /** Whether totals of this counter are since new: only then may a fixed point be compared. */
  default boolean isSinceNew(Counter counter) {
    return true;
  }
}
