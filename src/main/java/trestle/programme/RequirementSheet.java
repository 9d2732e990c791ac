package trestle.programme;

import java.util.UUID;

/**
 * Whose a requirement is, and what it is about.
 *
 * @param programmeId the type's programme, or null
 * @param aircraftId the one aircraft, or null
 * @param componentId the one component, or null
 * @param subject {@code aircraft}, {@code engine}, {@code propeller} or {@code component}
 */
public record RequirementSheet(
    UUID id, UUID programmeId, UUID aircraftId, UUID componentId, String subject) {

  /** The programme, the aircraft or the component. */
  UUID owner() {
    if (programmeId != null) {
      return programmeId;
    }
    return aircraftId == null ? componentId : aircraftId;
  }
}
