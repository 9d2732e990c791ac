package trestle.programme;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * One revision of what a requirement says.
 *
 * @param sequence its place in the ledger, which orders revisions
 * @param revises the revision before it, or null for the first
 * @param ruleWords the rule in short English
 * @param inForceFrom the day from which it counts
 * @param reason why it was revised, or null for the first
 * @param withdrawn whether the requirement ended with it
 */
public record Revision(
    UUID id,
    UUID requirementId,
    long sequence,
    UUID revises,
    Terms terms,
    String ruleWords,
    LocalDate inForceFrom,
    String approvedBy,
    String reason,
    boolean withdrawn,
    UUID recordedBy,
    Instant recordedAt) {}
