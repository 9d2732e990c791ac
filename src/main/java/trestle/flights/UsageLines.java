package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What aircraft have used, read for many at once in a constant number of statements. */
@ApplicationScoped
public class UsageLines {
  @Inject FlightRepository flights;
  @Inject LegRepository flown;
  @Inject UsageRepository usage;
  @Inject UsageSteps steps;
  @Inject Fleet fleet;

  /**
   * A line for every aircraft asked for. What is known now is read from the derived table; what was
   * known at an earlier sequence is reckoned from the flights themselves.
   */
  @Reading
  public Map<UUID, UsageLine> of(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, UsageLine> lines = new HashMap<>();
    if (aircraftIds.isEmpty()) {
      return lines;
    }
    Map<UUID, StepArrays> arrays =
        view.knowsEverything()
            ? usage.arrays(aircraftIds, view.upTo())
            : asKnown(viewer, aircraftIds, view);
    var openings = fleet.openings(viewer, aircraftIds, view);
    Map<UUID, Map<Counter, BigDecimal>> rates = flights.statedRates(aircraftIds, view);
    Map<UUID, Instant> filed = flown.lastFiled(aircraftIds, view);
    for (UUID id : new HashSet<>(aircraftIds)) {
      lines.put(
          id,
          new UsageLine(
              id,
              arrays.getOrDefault(id, StepArrays.NONE),
              openings.getOrDefault(id, List.of()),
              rates.getOrDefault(id, Map.of()),
              filed.get(id)));
    }
    return lines;
  }

  @Reading
  public UsageLine of(Viewer viewer, UUID aircraftId, View view) {
    return of(viewer, List.of(aircraftId), view).get(aircraftId);
  }

  private Map<UUID, StepArrays> asKnown(Viewer viewer, Collection<UUID> ids, View view) {
    Map<UUID, StepArrays> arrays = new HashMap<>();
    steps
        .asKnown(viewer, ids, view)
        .forEach((id, sequence) -> arrays.put(id, StepArrays.of(sequence.steps())));
    return arrays;
  }
}
