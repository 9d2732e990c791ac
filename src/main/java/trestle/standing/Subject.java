package trestle.standing;

import java.util.Objects;
import java.util.UUID;

/**
 * What a requirement is about: an aircraft, or one serial-numbered component; history stays with
 * it, whatever it is fitted to.
 *
 * @param kind {@code aircraft}, {@code engine}, {@code propeller} or {@code component}
 * @param id the aircraft's id, or the component's
 * @param aircraftId the aircraft it is, or is fitted to; null for a component that lies on a shelf
 * @param words what a page calls it: "QX-ABC", or "Engine 1, serial E-1042"
 */
public record Subject(String kind, UUID id, UUID aircraftId, String words) {

  public static final String AIRCRAFT = "aircraft";
  public static final String ENGINE = "engine";
  public static final String PROPELLER = "propeller";
  public static final String COMPONENT = "component";

  public Subject {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(id, "id");
    Objects.requireNonNull(words, "words");
  }

  public boolean isAircraft() {
    return kind.equals(AIRCRAFT);
  }
}
