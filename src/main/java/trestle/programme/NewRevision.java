package trestle.programme;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A revision of a requirement to be filed.
 *
 * @param revises the revision that the person saw; another one filed meanwhile makes this stale
 */
public record NewRevision(
    UUID requirementId,
    UUID revises,
    Terms terms,
    LocalDate inForceFrom,
    String reason,
    String approvedBy,
    UUID formKey) {}
