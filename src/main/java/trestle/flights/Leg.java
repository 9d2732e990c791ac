package trestle.flights;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.Map;
import java.util.UUID;
import trestle.reckoning.Counter;

/**
 * What of a flight counts for the sequence of flights. Moments are seconds since 1970, readings are
 * seconds.
 *
 * @param id of the row that is current
 * @param entryId of the entry, the same through all corrections
 * @param day the operator's date of the landing, as an epoch day
 */
record Leg(
    UUID id,
    UUID entryId,
    UUID aircraftId,
    long takeOff,
    long landing,
    int day,
    Long offBlocks,
    Long onBlocks,
    Long meterOut,
    Long meterIn,
    int landings,
    Integer cycles,
    Map<Counter, Long> others,
    String from,
    String to) {

  /** The sequence of flights: by take-off. */
  static final Comparator<Leg> ORDER =
      Comparator.comparingLong(Leg::takeOff)
          .thenComparingLong(Leg::landing)
          .thenComparing(Leg::entryId);

  static Leg of(UUID id, UUID entryId, UUID aircraftId, FlightDraft flight, LocalDate landedOn) {
    return new Leg(
        id,
        entryId,
        aircraftId,
        flight.takeOff().getEpochSecond(),
        flight.landing().getEpochSecond(),
        (int) landedOn.toEpochDay(),
        seconds(flight.offBlocks()),
        seconds(flight.onBlocks()),
        flight.meterOut(),
        flight.meterIn(),
        flight.landings(),
        flight.cycles(),
        flight.others(),
        flight.from(),
        flight.to());
  }

  private static Long seconds(Instant moment) {
    return moment == null ? null : moment.getEpochSecond();
  }

  boolean isMetered() {
    return meterOut != null && meterIn != null;
  }
}
