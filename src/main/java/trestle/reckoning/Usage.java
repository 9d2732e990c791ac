package trestle.reckoning;

import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.StringJoiner;
import java.util.TreeMap;

/**
 * The total of each counter of one subject (an aircraft, or one serial-numbered component) at one
 * moment. A counter that is not listed is unknown, which is not zero.
 */
public record Usage(Tally totals) {

  /** Nothing is known. */
  public static final Usage NONE = new Usage(new Tally(Map.of()));

  public Usage {
    totals
        .toMap()
        .forEach(
            (counter, units) -> {
              if (units < 0) {
                throw new IllegalArgumentException(counter + " must not be negative");
              }
            });
  }

  /** From seconds (a counter in hours) or counts. */
  public static Usage ofUnits(Map<Counter, Long> totals) {
    return new Usage(new Tally(totals));
  }

  public static Usage of(Counter counter, String amount) {
    return NONE.with(counter, amount);
  }

  public static Usage ofHours(String hours) {
    return of(Counter.HOURS, hours);
  }

  /** Reads {@code hours=1234.5 landings=2210}; an empty text is {@link #NONE}. */
  public static Usage parse(String text) {
    Usage usage = NONE;
    for (String part : text.strip().split(" +")) {
      if (!part.isEmpty()) {
        String[] sides = part.split("=", 2);
        usage = usage.with(Counter.parse(sides[0]), sides.length < 2 ? "" : sides[1]);
      }
    }
    return usage;
  }

  public Usage with(Counter counter, String amount) {
    return with(counter, counter.unit().parse(amount));
  }

  public Usage with(Counter counter, long units) {
    SortedMap<Counter, Long> map = new TreeMap<>(totals.toMap());
    map.put(counter, units);
    return new Usage(new Tally(map));
  }

  /** Seconds or count of a counter, or {@link Scale#UNKNOWN}. */
  public long units(Counter counter) {
    return totals.of(counter);
  }

  public Optional<Amount> total(Counter counter) {
    long units = units(counter);
    return units == Scale.UNKNOWN
        ? Optional.empty()
        : Optional.of(new Amount(units, counter.unit()));
  }

  /** Seconds or counts by counter, in the order of their names. */
  public SortedMap<Counter, Long> toMap() {
    return totals.toMap();
  }

  /** The text which {@link #parse} reads back. */
  @Override
  public String toString() {
    StringJoiner text = new StringJoiner(" ");
    toMap().forEach((counter, units) -> text.add(counter + "=" + counter.unit().show(units)));
    return text.toString();
  }
}
