package trestle.programme;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import trestle.formats.CanonicalJson;
import trestle.reckoning.Counter;
import trestle.reckoning.Usage;

/** Readings as their signer wrote them, kept as JSON: {@code {"hours":"1234.5"}}. */
final class Readings {

  private Readings() {}

  static Usage parse(String json) {
    Map<Counter, Long> totals = new TreeMap<>();
    CanonicalJson.parse(json)
        .properties()
        .forEach(
            member -> {
              Counter counter = Counter.parse(member.getKey());
              totals.put(counter, counter.unit().parse(member.getValue().asText()));
            });
    return Usage.ofUnits(totals);
  }

  static String json(Usage readings) {
    SortedMap<String, String> texts = new TreeMap<>();
    readings
        .toMap()
        .forEach((counter, units) -> texts.put(counter.name(), counter.unit().show(units)));
    return CanonicalJson.of(CanonicalJson.tree(texts));
  }

  /** More than a rounding apart: 0.05 h, or anything of a count. */
  static List<Counter> differing(Usage signed, Usage reckoned) {
    List<Counter> differing = new ArrayList<>();
    SortedMap<Counter, Long> known = reckoned.toMap();
    signed
        .toMap()
        .forEach(
            (counter, units) -> {
              long slack = counter.inHours() ? 180 : 0;
              if (known.containsKey(counter) && Math.abs(units - known.get(counter)) > slack) {
                differing.add(counter);
              }
            });
    return differing;
  }
}
