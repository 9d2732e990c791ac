package trestle.programme;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/** One compliance that stands, as far as reckoning needs it. */
record Doing(
    UUID id,
    UUID requirementId,
    UUID aircraftId,
    UUID componentId,
    String kind,
    Instant at,
    LocalDate on,
    String readings,
    Boolean complete,
    LocalDate countsFrom,
    Long sequence) {

  UUID subjectId() {
    return componentId == null ? aircraftId : componentId;
  }

  boolean isBaseline() {
    return kind.equals(Compliance.BASELINE);
  }

  /** The date that limits by the calendar count from. */
  LocalDate countedOn() {
    return countsFrom == null ? on : countsFrom;
  }
}
