package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.InstantSource;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.reckoning.Counter;
import trestle.web.Filing;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** The rate a day that a person states for the projection. */
@ApplicationScoped
public class Rates {
  private static final BigDecimal MOST = BigDecimal.valueOf(10_000);

  @Inject Revisions revisions;
  @Inject FlightRepository repository;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * States a rate, or takes it back.
   *
   * @param perDay hours or a count a day, at most four decimals; null: the mean of what was flown
   */
  @Filing
  public void state(
      Viewer viewer, UUID aircraftId, Counter counter, BigDecimal perDay, UUID formKey) {
    boolean fits =
        perDay == null
            || perDay.signum() >= 0 && perDay.scale() <= 4 && perDay.compareTo(MOST) <= 0;
    if (!fits) {
      throw new Refusal(
          "rate", "Rate a day must be 0 to 10,000 with at most four decimals, like 0.8.");
    }
    revisions.bump(viewer, aircraftId);
    if (repository.ofForm(StatedRate.class, formKey).isPresent()) {
      return;
    }
    StatedRate row = new StatedRate();
    row.aircraftId = aircraftId;
    row.counter = counter.name();
    row.perDay = perDay;
    row.happened(clock.instant(), viewer.dateOf(clock.instant()));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }
}
