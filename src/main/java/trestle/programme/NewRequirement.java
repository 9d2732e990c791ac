package trestle.programme;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A requirement to be created.
 *
 * @param programmeId the programme it belongs to; or null, and then the aircraft, the component or
 *     the part number
 * @param subject {@code aircraft}, {@code engine} or {@code propeller} (each one fitted), or {@code
 *     component}
 * @param inForceFrom the day from which it counts
 * @param approvedBy who approved it
 * @param formKey the key made when the form was opened, or null
 */
public record NewRequirement(
    UUID programmeId,
    UUID aircraftId,
    UUID componentId,
    String partNumber,
    String subject,
    Terms terms,
    LocalDate inForceFrom,
    String approvedBy,
    UUID formKey) {

  public static NewRequirement ofProgramme(
      UUID programme, String subject, Terms terms, LocalDate inForceFrom, String approvedBy) {
    return new NewRequirement(
        programme, null, null, null, subject, terms, inForceFrom, approvedBy, null);
  }

  public static NewRequirement ofAircraft(
      UUID aircraft, String subject, Terms terms, LocalDate inForceFrom, String approvedBy) {
    return new NewRequirement(
        null, aircraft, null, null, subject, terms, inForceFrom, approvedBy, null);
  }

  public static NewRequirement ofComponent(
      UUID component, Terms terms, LocalDate inForceFrom, String approvedBy) {
    return new NewRequirement(
        null, null, component, null, "component", terms, inForceFrom, approvedBy, null);
  }

  /** Of every component of a part number. */
  public static NewRequirement ofPart(
      String partNumber, Terms terms, LocalDate inForceFrom, String approvedBy) {
    return new NewRequirement(
        null, null, null, partNumber.strip(), "component", terms, inForceFrom, approvedBy, null);
  }
}
