package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.RevokingCheck;
import trestle.web.Viewer;

/** A gap that somebody said was not flown counts as flown again, until another word on it. */
@ApplicationScoped
class ExplanationRevoking implements RevokingCheck {
  @Inject FlightRepository repository;
  @Inject UsageSteps steps;

  @Override
  public Set<String> kinds() {
    return Set.of("break-explanation");
  }

  @Override
  public void check(Viewer viewer, UUID recordId) {}

  @Override
  public void takenAway(Viewer viewer, UUID recordId) {
    BreakExplanation row = repository.row(BreakExplanation.class, recordId).orElseThrow();
    Flight flight = repository.row(Flight.class, row.flightId).orElseThrow();
    steps.change(
        viewer,
        new UsageSteps.Change(
            flight.aircraftId, flight.happenedOn(), flight.happenedOn(), List.of(), List.of()));
  }
}
