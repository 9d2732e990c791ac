package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.UUID;
import trestle.reckoning.Counter;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * What an aircraft's counters stood at when they began to be kept here, and its meter's changes.
 */
@ApplicationScoped
public class Meters {
  @Inject AircraftRepository repository;
  @Inject Fleet fleet;
  @Inject Revisions revisions;
  @Inject Filings filings;

  /**
   * What a counter stood at.
   *
   * @param amount seconds or a count; null when it is not known
   * @param corrects the opening it puts right, or null; then with a reason
   */
  public record Opening(
      Counter counter, Long amount, Instant at, UUID corrects, String reason, UUID formKey) {}

  /**
   * The meter was replaced or rolled over.
   *
   * @param off the old meter's last reading in seconds, or null when it can't be known
   * @param on what the meter reads from then on
   * @param corrects the change it puts right, or null; then with a reason
   * @param voids there was no such change: only with {@code corrects}
   */
  public record ChangingMeter(
      Instant at, Long off, long on, UUID corrects, boolean voids, String reason, UUID formKey) {}

  /** States what a counter stood at, or puts an earlier statement right. */
  @Filing
  public void open(Viewer viewer, UUID aircraftId, Opening asked) {
    Instant at = filings.notLater(asked.at(), "on");
    if (asked.amount() != null && asked.amount() < 0) {
      throw new Refusal("amount", "Total must not be negative.");
    }
    revisions.bump(viewer, aircraftId);
    if (repository.ofForm(CounterOpening.class, asked.formKey()).isPresent()) {
      return;
    }
    CounterOpening row = CounterOpening.of(aircraftId, asked.counter(), asked.amount());
    if (asked.corrects() != null) {
      CounterOpening original =
          filings.correctable(CounterOpening.class, asked.corrects(), asked.reason());
      if (!original.aircraftId.equals(aircraftId)
          || !original.counter.equals(asked.counter().name())) {
        throw new NotHere("There is no such opening on this aircraft.");
      }
      row.correct(original.id(), asked.reason());
    }
    row.happened(at, viewer.dateOf(at));
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
  }

  /** Files a meter's replacement or roll-over, or puts an earlier one right. */
  @Filing
  public void changeMeter(Viewer viewer, UUID aircraftId, ChangingMeter asked) {
    Instant at = filings.notLater(asked.at(), "on");
    revisions.bump(viewer, aircraftId);
    if (repository.ofForm(MeterChange.class, asked.formKey()).isPresent()) {
      return;
    }
    if (!fleet.sheet(viewer, aircraftId, filings.now(viewer)).particulars().hasMeter()) {
      throw new Refusal("", "Name the aircraft's meter in its particulars first.");
    }
    MeterChange row = new MeterChange();
    row.aircraftId = aircraftId;
    row.offReading = asked.off();
    row.onReading = asked.on();
    if (asked.corrects() != null) {
      MeterChange original =
          filings.correctable(MeterChange.class, asked.corrects(), asked.reason());
      if (!original.aircraftId.equals(aircraftId)) {
        throw new NotHere("There is no such meter change on this aircraft.");
      }
      row.correct(original.id(), asked.reason());
      row.isVoid = asked.voids();
    }
    row.happened(at, viewer.dateOf(at));
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    filings.follow(viewer, aircraftId);
  }
}
