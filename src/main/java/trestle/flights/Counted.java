package trestle.flights;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import trestle.fleet.CounterWords;
import trestle.fleet.Fleet.OpeningSheet;
import trestle.reckoning.Counter;
import trestle.web.Refusal;

/** What a report of a flight must count: what its aircraft counted by then. */
final class Counted {

  /** Counters that the aircraft counted by then and the report leaves out. */
  static List<Refusal.Reason> leftOut(FlightDraft draft, List<OpeningSheet> openings) {
    List<Refusal.Reason> faults = new ArrayList<>();
    for (Counter counter : countedBy(draft, openings)) {
      if (counter.equals(StepArrays.FLIGHT_HOURS) && draft.offBlocks() == null) {
        faults.add(
            new Refusal.Reason(
                "off-blocks", "Off blocks is needed: this aircraft's flight hours are counted."));
        faults.add(
            new Refusal.Reason(
                "on-blocks", "On blocks is needed: this aircraft's flight hours are counted."));
      } else if (counter.equals(StepArrays.CYCLES) && draft.cycles() == null) {
        faults.add(new Refusal.Reason("cycles", "Cycles is needed: this aircraft counts them."));
      } else if (isOther(counter) && !draft.others().containsKey(counter)) {
        faults.add(
            new Refusal.Reason(
                counter.name(), CounterWords.of(counter) + " is needed: this aircraft counts it."));
      }
    }
    return faults;
  }

  private static Set<Counter> countedBy(FlightDraft draft, List<OpeningSheet> openings) {
    Set<Counter> counted = new LinkedHashSet<>();
    for (OpeningSheet opening : openings) {
      if (!opening.at().isAfter(draft.landing())) {
        counted.add(opening.counter());
      }
    }
    return counted;
  }

  /** A counter of the operator's own, beside those that every report has a field for. */
  static boolean isOther(Counter counter) {
    return !counter.equals(Counter.HOURS)
        && !counter.equals(Counter.LANDINGS)
        && !counter.equals(StepArrays.FLIGHT_HOURS)
        && !counter.equals(StepArrays.CYCLES);
  }

  private Counted() {}
}
