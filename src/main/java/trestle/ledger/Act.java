package trestle.ledger;

import java.time.Instant;
import java.util.UUID;

/** Who files, in which operator, and when it is recorded. */
public record Act(UUID operatorId, UUID personId, Instant recordedAt) {}
