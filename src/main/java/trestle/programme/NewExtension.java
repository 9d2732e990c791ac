package trestle.programme;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;

/**
 * An extension to be granted to the occurrence of one limit that is due next.
 *
 * @param on the day it is granted
 * @param limit the path of indexes down to the limit
 * @param newDue the new due point on the limit's scale (seconds, a count, an epoch day)
 * @param allowedBy the text of a directive or limitation that itself allows it, or ""
 */
public record NewExtension(
    UUID requirementId,
    UUID aircraftId,
    UUID componentId,
    LocalDate on,
    List<Integer> limit,
    long newDue,
    String approvedBy,
    String reference,
    String allowedBy,
    UUID formKey) {}
