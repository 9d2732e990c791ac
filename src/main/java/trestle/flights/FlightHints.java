package trestle.flights;

/**
 * What a form says of the flight before.
 *
 * @param meter "closed at 1,234.5", or ""
 * @param fuel "148 litres were left", or ""
 */
public record FlightHints(String meter, String fuel) {
  public String meterHint() {
    return meter.isEmpty() ? "hours" : "hours; " + meter;
  }
}
