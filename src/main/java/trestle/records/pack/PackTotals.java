package trestle.records.pack;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.UUID;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.web.Viewer;

/** What the subject and its parts had run: handed over with a pack, and compared when it is in. */
@ApplicationScoped
class PackTotals {
  @Inject UsageLines usage;
  @Inject ComponentLines components;

  /**
   * One figure.
   *
   * @param of the aircraft or component
   * @param what {@code total}, {@code since-new} or {@code since-overhaul}
   * @param units whole seconds, or a count; null where it is not known
   */
  record Total(UUID of, String what, String counter, Long units) {

    List<String> cells() {
      return List.of(of.toString(), what, counter, units == null ? "" : units.toString());
    }

    static Total of(List<String> cells) {
      return new Total(
          UUID.fromString(cells.get(0)),
          cells.get(1),
          cells.get(2),
          cells.get(3).isEmpty() ? null : Long.valueOf(cells.get(3)));
    }
  }

  List<Total> of(Viewer viewer, PackSubject subject, Collection<UUID> parts, View view) {
    List<Total> totals = new ArrayList<>();
    if (subject.isAircraft()) {
      usage
          .of(viewer, subject.id(), view)
          .total()
          .toMap()
          .forEach(
              (counter, units) ->
                  totals.add(new Total(subject.id(), "total", counter.name(), units)));
    }
    for (Map.Entry<UUID, ComponentLine> one : components.of(viewer, parts, view).entrySet()) {
      for (Counter counter : new TreeSet<>(one.getValue().counters())) {
        totals.add(total(one.getKey(), "since-new", counter, one.getValue().sinceNew(counter)));
        totals.add(
            total(one.getKey(), "since-overhaul", counter, one.getValue().sinceOverhaul(counter)));
      }
    }
    totals.sort(Comparator.comparing(one -> String.join(" ", one.cells())));
    return totals;
  }

  private static Total total(UUID of, String what, Counter counter, long units) {
    return new Total(of, what, counter.name(), units == Scale.UNKNOWN ? null : units);
  }
}
