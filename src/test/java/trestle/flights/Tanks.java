package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import trestle.fleet.FuelUnit;
import trestle.ledger.View;
import trestle.web.Viewer;

/** Readings of fuel and oil for tests of other rooms. */
@ApplicationScoped
public class Tanks {
  @Inject FuelAndOil fluids;
  @Inject Flights flights;

  /**
   * Files what was read after a flight.
   *
   * @return the reading's id
   */
  public UUID readAfter(Viewer viewer, UUID flightId, String remark) {
    FlightSheet flight = flights.entry(viewer, flightId).current();
    FluidDraft found =
        new FluidDraft(
            FuelUnit.LITRES,
            null,
            new TreeMap<>(),
            new TreeMap<>(),
            new TreeMap<>(),
            new TreeMap<>(),
            new TreeMap<>(Map.of("engine", BigDecimal.ONE)),
            Set.of(),
            remark);
    fluids.file(viewer, flight.aircraftId(), flight.entryId(), flight.flight(), found, null);
    return fluids.compared(viewer, flight.aircraftId(), View.EVERYTHING).get(0).reading().id();
  }
}
