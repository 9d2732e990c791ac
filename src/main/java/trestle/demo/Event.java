package trestle.demo;

import java.time.Instant;
import java.util.concurrent.Callable;
import trestle.flights.Backlog;

/** Something filed in the story. */
sealed interface Event {
  /** When it was recorded. */
  Instant recordedAt();

  /** What is filed by itself. */
  record Filed(Instant recordedAt, Callable<?> filing) implements Event {}

  /** Flights of a day: sheets that follow one another are filed together. */
  record Flown(Backlog.Sheet sheet) implements Event {
    @Override
    public Instant recordedAt() {
      return sheet.handedIn();
    }
  }
}
