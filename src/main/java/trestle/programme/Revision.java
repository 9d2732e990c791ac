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
 * @param under the place in the ledger of the programme's revision that it came with; 0 where there
 *     was none
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
    long under,
    LocalDate inForceFrom,
    String approvedBy,
    String reason,
    boolean withdrawn,
    UUID recordedBy,
    Instant recordedAt) {}
