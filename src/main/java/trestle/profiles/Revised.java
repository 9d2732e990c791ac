package trestle.profiles;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * One revision of a profile as pages show it.
 *
 * @param ended whether the aircraft goes by its operator's profile from then on
 */
public record Revised(
    UUID id,
    UUID aircraftId,
    UUID revises,
    String startedFrom,
    RuleProfile profile,
    boolean ended,
    LocalDate from,
    String reason,
    String approvedBy,
    UUID recordedBy,
    Instant recordedAt) {

  public Example startedFromExample() {
    return Examples.of(startedFrom);
  }
}
