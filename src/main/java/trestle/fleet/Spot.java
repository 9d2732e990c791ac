package trestle.fleet;

import java.util.UUID;

/** A position of an aircraft, or a place in another component. */
public record Spot(UUID aircraftId, String positionCode, UUID assemblyId, String place) {

  public static Spot on(UUID aircraftId, String positionCode) {
    return new Spot(aircraftId, positionCode, null, null);
  }

  public static Spot in(UUID assemblyId, String place) {
    return new Spot(null, null, assemblyId, place.strip());
  }

  static Spot of(Placement placement) {
    return new Spot(
        placement.aircraftId(),
        placement.positionCode(),
        placement.assemblyId(),
        placement.place());
  }

  boolean isInComponent() {
    return assemblyId != null;
  }

  UUID holder() {
    return assemblyId == null ? aircraftId : assemblyId;
  }

  String name() {
    return assemblyId == null ? positionCode : place;
  }
}
