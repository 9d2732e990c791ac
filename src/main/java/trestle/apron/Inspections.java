package trestle.apron;

import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import trestle.standing.DueItem;

/**
 * Which of the inspections people mean by "the inspection": the aircraft is looked over as a whole,
 * where a fire extinguisher that is weighed or a transponder that is tested is an inspection too.
 */
final class Inspections {
  private Inspections() {}

  /**
   * Those of the aircraft itself that do other work too, as an annual does the hundred hours'.
   * Where none does, those of the aircraft that any flight waits for; else all there are.
   */
  static Set<DueItem> whole(List<DueItem> items) {
    Set<DueItem> all = those(items, item -> item.kind().equals("inspection"));
    Set<DueItem> ofAircraft = those(all, item -> item.subject().isAircraft());
    Set<DueItem> covering = those(ofAircraft, DueItem::coversOthers);
    if (!covering.isEmpty()) {
      return covering;
    }
    Set<DueItem> binding = those(ofAircraft, item -> item.isMandatory() && item.forbidsAnyFlight());
    return binding.isEmpty() ? all : binding;
  }

  private static Set<DueItem> those(Iterable<DueItem> items, Predicate<DueItem> asked) {
    Set<DueItem> those = Collections.newSetFromMap(new IdentityHashMap<>());
    for (DueItem item : items) {
      if (asked.test(item)) {
        those.add(item);
      }
    }
    return those;
  }
}
