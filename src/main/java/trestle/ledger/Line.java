package trestle.ledger;

import java.time.Instant;
import java.util.UUID;

/**
 * A line of an operator's ledger as it was written.
 *
 * @param aircraftId whose record it belongs to, or null
 * @param json the canonical JSON of the filed row
 * @param leaf SHA-256(0x00 ‖ json in UTF-8), as stored
 */
public record Line(
    long seq,
    Instant recordedAt,
    UUID recordedBy,
    UUID aircraftId,
    String kind,
    int kindVersion,
    UUID recordId,
    String json,
    byte[] leaf) {}
