package trestle.records.pack;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import trestle.web.Shown;

/**
 * What the other operator's workshop left unfinished on an aircraft, told from the lines of its
 * pack. Those lines are kept as text, so that nothing of it would hold the aircraft here: whoever
 * takes it in grounds it for these reasons, until somebody has looked.
 */
final class Outstanding {
  private static final Set<String> KINDS =
      Set.of(
          "work-order",
          "work-order-step",
          "work-line",
          "line-work",
          "line-deferral",
          "work-release",
          "check-flight",
          "defect",
          "rectification",
          "deferral",
          "defect-triage");

  /** By kind and place in the ledger, without those that a later one corrects. */
  private final Map<String, TreeMap<Long, JsonNode>> current = new HashMap<>();

  private final Map<String, Long> places = new HashMap<>();

  void line(PackLines.PackLine line) {
    if (!KINDS.contains(line.kind())) {
      return;
    }
    TreeMap<Long, JsonNode> ofKind = current.computeIfAbsent(line.kind(), k -> new TreeMap<>());
    if (line.json().hasNonNull("corrects")) {
      Long corrected = places.get(line.json().get("corrects").asText());
      if (corrected != null) {
        ofKind.remove(corrected);
      }
    }
    places.put(line.recordId().toString(), line.seq());
    if (!line.json().path("voided").asBoolean()) {
      ofKind.put(line.seq(), line.json());
    }
  }

  /** Whole sentences; none where the workshop left nothing. */
  List<String> sentences() {
    List<String> all = new ArrayList<>();
    ordersInWork(all);
    linesLeftOpen(all);
    foundNotAirworthy(all);
    checkFlights(all);
    triaged(all);
    return all;
  }

  private void ordersInWork(List<String> all) {
    of("work-order")
        .filter(order -> isStep(order, "started") && !isStep(order, "cancelled"))
        .filter(order -> !named("work-release", "order_entry_id", order, "entry_id"))
        .forEach(
            order -> all.add("Work was begun and not released: " + text(order, "title") + "."));
  }

  private boolean isStep(JsonNode order, String step) {
    return of("work-order-step")
        .anyMatch(
            one ->
                text(one, "order_entry_id").equals(text(order, "entry_id"))
                    && text(one, "step").equals(step));
  }

  private void linesLeftOpen(List<String> all) {
    of("line-deferral")
        .filter(left -> !isSettled("put-off", "from_line", text(left, "line_entry_id"), null))
        .forEach(
            left ->
                all.add(
                    "Left open until "
                        + Shown.date(LocalDate.parse(text(left, "last_day")))
                        + ": "
                        + title(text(left, "line_entry_id"))
                        + "."));
  }

  private String title(String lineEntry) {
    return of("work-line")
        .filter(line -> text(line, "entry_id").equals(lineEntry))
        .map(line -> text(line, "title"))
        .findFirst()
        .orElse("a line of a work order");
  }

  /** Whether a later line of that origin was signed as done. */
  private boolean isSettled(String origin, String field, String names, Integer ordinal) {
    return of("work-line")
        .filter(line -> text(line, "origin").equals(origin) && text(line, field).equals(names))
        .filter(line -> ordinal == null || line.path("from_ordinal").asInt() == ordinal)
        .anyMatch(line -> named("line-work", "line_entry_id", line, "entry_id"));
  }

  private void foundNotAirworthy(List<String> all) {
    of("work-release")
        .filter(release -> !release.path("airworthy").asBoolean(true))
        .forEach(
            release -> {
              int ordinal = 0;
              for (JsonNode one : release.path("discrepancies")) {
                ordinal++;
                if (!isSettled("discrepancy", "from_release", text(release, "id"), ordinal)) {
                  all.add("Found not airworthy, and not put right: " + one.asText() + ".");
                }
              }
            });
  }

  private void checkFlights(List<String> all) {
    of("work-release")
        .filter(release -> !text(release, "check_flight").isEmpty())
        .filter(
            release ->
                of("check-flight")
                    .noneMatch(
                        flight ->
                            flight.path("satisfactory").asBoolean()
                                && text(flight, "release_id").equals(text(release, "id"))))
        .forEach(
            release -> all.add("Check flight to be made: " + text(release, "check_flight") + "."));
  }

  /** Held by the last triage: what deferred it before is ended by that. */
  private void triaged(List<String> all) {
    Map<String, String> last = new TreeMap<>();
    TreeMap<Long, JsonNode> words = new TreeMap<>();
    words.putAll(current.getOrDefault("defect-triage", new TreeMap<>()));
    words.putAll(current.getOrDefault("deferral", new TreeMap<>()));
    words.values().forEach(word -> last.put(text(word, "defect_entry_id"), text(word, "outcome")));
    of("defect")
        .filter(defect -> last.getOrDefault(text(defect, "entry_id"), "").equals("holds"))
        .filter(defect -> !named("rectification", "defect_entry_id", defect, "entry_id"))
        .forEach(
            defect ->
                all.add("Triaged to be put right before it flies: " + text(defect, "words") + "."));
  }

  private boolean named(String kind, String field, JsonNode row, String id) {
    return of(kind).anyMatch(one -> text(one, field).equals(text(row, id)));
  }

  private Stream<JsonNode> of(String kind) {
    return current.getOrDefault(kind, new TreeMap<>()).values().stream();
  }

  private static String text(JsonNode row, String field) {
    return row.path(field).asText("");
  }
}
