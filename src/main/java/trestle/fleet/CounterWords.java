package trestle.fleet;

import java.util.Locale;
import trestle.reckoning.Counter;

/** A counter's name as a label: "heater-hours" is "Heater hours", "hours" is "Time in service". */
public final class CounterWords {
  private CounterWords() {}

  public static String of(Counter counter) {
    if (counter.equals(Counter.HOURS)) {
      return "Time in service";
    }
    String words = counter.name().replace('-', ' ');
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }
}
