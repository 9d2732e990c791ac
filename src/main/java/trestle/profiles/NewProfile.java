package trestle.profiles;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A profile to file.
 *
 * @param aircraftId whose; null for the operator's own
 * @param revises the revision the person saw, or null where there was none
 * @param startedFrom the key of the example it started from
 * @param profile what it says; null to let an aircraft go by its operator's again
 * @param from from which day it is in force
 * @param formKey the key made when the form was opened, or null
 */
public record NewProfile(
    UUID aircraftId,
    UUID revises,
    String startedFrom,
    RuleProfile profile,
    LocalDate from,
    String reason,
    String approvedBy,
    UUID formKey) {

  NewProfile saying(RuleProfile other) {
    return new NewProfile(
        aircraftId, revises, startedFrom, other, from, reason, approvedBy, formKey);
  }
}
