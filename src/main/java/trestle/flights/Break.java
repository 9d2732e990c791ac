package trestle.flights;

import java.util.UUID;

/**
 * One flight does not follow on from an earlier one.
 *
 * @param earlierId the earlier flight it disagrees with
 * @param amount seconds of the gap, the overlap, or by how much the meter fell; null for a place
 */
record Break(UUID flightId, UUID aircraftId, BreakKind kind, UUID earlierId, Long amount) {}
