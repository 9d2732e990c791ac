package trestle.programme;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import trestle.reckoning.Usage;

/**
 * A compliance to be filed: the work was done, or (a baseline) from where it counts.
 *
 * @param aircraftId the aircraft it was done to, or that the component was fitted to; null for a
 *     component on the shelf
 * @param componentId the component it was done to, or null when the subject is the aircraft
 * @param at the moment at which it was done: what flew before it counts as flown before
 * @param readings the totals as the signer wrote them; may be empty
 * @param workReference the work order or the like
 * @param licenceNumber the licence under which it is certified
 * @param transcribedFrom the old papers it is copied from; "" when it is certified here and now
 * @param certifiedBy who signed those papers; of no account when it is certified here
 * @param complete whether all of it was done, so that it counts for what it covers too
 * @param countsFrom of a baseline: the date that limits by the calendar count from, or null for the
 *     day of {@code at}
 */
public record NewCompliance(
    UUID requirementId,
    UUID aircraftId,
    UUID componentId,
    boolean baseline,
    Instant at,
    Usage readings,
    String workReference,
    String certifiedBy,
    String licenceNumber,
    String transcribedFrom,
    boolean complete,
    LocalDate countsFrom,
    String remarks,
    UUID formKey) {

  UUID subjectId() {
    return componentId == null ? aircraftId : componentId;
  }

  /** Certified here and now by the viewer, who is an engineer. */
  public static NewCompliance certified(
      UUID requirement, UUID aircraft, UUID component, Instant at, Usage readings, String licence) {
    return new NewCompliance(
        requirement,
        aircraft,
        component,
        false,
        at,
        readings,
        "",
        "",
        licence,
        "",
        true,
        null,
        "",
        null);
  }

  /** Copied from old papers. */
  public static NewCompliance transcribed(
      UUID requirement, UUID aircraft, UUID component, Instant at, Usage readings, String papers) {
    return new NewCompliance(
        requirement,
        aircraft,
        component,
        false,
        at,
        readings,
        "",
        "",
        "",
        papers,
        true,
        null,
        "",
        null);
  }

  /** Not a doing: where counting starts. */
  public NewCompliance asBaseline() {
    return new NewCompliance(
        requirementId,
        aircraftId,
        componentId,
        true,
        at,
        readings,
        workReference,
        certifiedBy,
        licenceNumber,
        transcribedFrom,
        complete,
        countsFrom,
        remarks,
        formKey);
  }
}
