package trestle.reckoning;

import java.util.List;
import java.util.Map;

/**
 * What has happened to a requirement's subject so far.
 *
 * @param baseline where counting starts when the work was not yet done in these records (new,
 *     overhauled, or last done before they began); null where there is none
 * @param doings each time the work was done, oldest first
 * @param origins the readings at named origins: {@code new}, {@code overhaul}, {@code effective}
 * @param extensions due points granted for single occurrences
 */
public record History(
    Reading baseline,
    List<Reading> doings,
    Map<String, Reading> origins,
    List<Extension> extensions) {

  public static final History NONE = new History(null, List.of());

  public History {
    doings = List.copyOf(doings);
    origins = Map.copyOf(origins);
    extensions = List.copyOf(extensions);
  }

  public History(Reading baseline, List<Reading> doings) {
    this(baseline, doings, Map.of(), List.of());
  }

  public static History since(Reading baseline, Reading... doings) {
    return new History(baseline, List.of(doings));
  }

  public History withOrigins(Map<String, Reading> named) {
    return new History(baseline, doings, named, extensions);
  }

  public History withExtensions(Extension... granted) {
    return new History(baseline, doings, origins, List.of(granted));
  }
}
