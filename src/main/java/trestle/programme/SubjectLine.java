package trestle.programme;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
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

  /** The same as they were just before a moment. */
  default Map<String, Reading> originsBefore(Instant moment) {
    return origins();
  }

  /** Its landings on one aircraft after one moment, and by another, in order. */
  List<Instant> landings(UUID aircraft, Instant after, Instant by);

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
