package trestle.standing;

import java.time.Instant;
import java.util.UUID;
import trestle.reckoning.Reading;

/**
 * When the work was last done, or where counting starts.
 *
 * @param complianceId the record behind it
 * @param at the stated moment
 * @param reading the stated date, and the subject's totals at that place in the sequence of flights
 * @param baseline whether it is where counting starts, and not a doing
 * @param coveredBy the title of the larger work that did it too, or null when it was done itself
 */
public record LastDone(
    UUID complianceId, Instant at, Reading reading, boolean baseline, String coveredBy) {}
