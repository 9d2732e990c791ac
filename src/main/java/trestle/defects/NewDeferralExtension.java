package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * An extension of a deferral to file; its fields are those of Transport Canada's TP 9155, appendix
 * B, that are not in the deferral itself.
 *
 * @param at when it was granted
 * @param unserviceableAt where the item became unserviceable
 * @param why why it can't be put right in time
 * @param orderedOn when the part was ordered, or null
 * @param deliveryOn the first delivery confirmed, or null
 * @param authorityToldOn when the authority was told, or null while it was not
 */
public record NewDeferralExtension(
    UUID deferralId,
    Instant at,
    LocalDate newLastDay,
    String unserviceableAt,
    String why,
    String partNumber,
    LocalDate orderedOn,
    LocalDate deliveryOn,
    String approvedBy,
    String reference,
    LocalDate authorityToldOn) {}
