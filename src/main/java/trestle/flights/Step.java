package trestle.flights;

import java.util.Map;
import java.util.UUID;
import trestle.reckoning.Counter;

/**
 * What the landing of one flight added to each counter; null: the flight did not say.
 *
 * @param landedAt seconds since 1970
 */
record Step(
    UUID entryId,
    UUID aircraftId,
    int day,
    long landedAt,
    long hours,
    Long flightHours,
    int landings,
    Integer cycles,
    Map<Counter, Long> others) {}
