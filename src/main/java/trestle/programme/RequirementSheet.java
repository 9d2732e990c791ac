package trestle.programme;

import java.util.Locale;
import java.util.UUID;

/**
 * Whose a requirement is, and what it is about.
 *
 * @param programmeId the type's programme, or null
 * @param aircraftId the one aircraft, or null
 * @param componentId the one component, or null
 * @param partNumber the part number of which every component carries it, or null
 * @param subject {@code aircraft}, {@code engine}, {@code propeller} or {@code component}
 */
public record RequirementSheet(
    UUID id,
    UUID programmeId,
    UUID aircraftId,
    UUID componentId,
    String partNumber,
    String subject) {

  /** The programme, the aircraft, the component, or the part number in small letters. */
  Object owner() {
    if (partNumber != null) {
      return partNumber.toLowerCase(Locale.ROOT);
    }
    if (programmeId != null) {
      return programmeId;
    }
    return aircraftId == null ? componentId : aircraftId;
  }
}
