package trestle.records.pack;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.BiFunction;
import java.util.stream.Collectors;

/**
 * A line as it is filed here: the same id and the same words, with the mark that it was copied, and
 * without what was the other operator's own (where, when and by whom it was filed; its numbers).
 */
final class Transcript {
  private static final List<String> OF_THE_OTHER =
      List.of("operator_id", "ledger_seq", "recorded_at", "recorded_by", "form_key");

  private static final int LONGEST_SOURCE = 200;

  private final Checked pack;
  private final java.util.Set<String> components;
  private final BiFunction<String, UUID, Long> number;
  private final Map<String, Long> numbers = new HashMap<>();

  /**
   * @param number what an entry of a series has here already, or else the series' next number
   */
  Transcript(Checked pack, BiFunction<String, UUID, Long> number) {
    this.pack = pack;
    this.number = number;
    this.components =
        java.util.stream.Stream.concat(pack.parts().stream(), pack.history().stream())
            .map(UUID::toString)
            .collect(Collectors.toSet());
  }

  JsonNode of(PackLines.PackLine line) {
    ObjectNode row = line.json().deepCopy();
    row.remove(OF_THE_OTHER);
    switch (line.kind()) {
      case "aircraft-particulars" -> particulars(row);
      case "component" -> component(row);
      case "compliance" -> transcribed(row);
      case "rectification", "deferral" -> signed(row, line.recordedBy());
      case "defect" -> {
        numbered(row, "defect");
        if (!components.contains(row.path("component_id").asText())) {
          row.remove("component_id");
        }
      }
      case "abnormal-event" -> numbered(row, "abnormal-event");
      default -> {
        // Nothing in it was the other operator's alone.
      }
    }
    return row;
  }

  /** An aircraft that a part was on before is no aircraft of this operator. */
  private void particulars(ObjectNode row) {
    if (!row.path("aircraft_id").asText().equals(pack.subject().id().toString())) {
      row.put("retired", true);
    }
  }

  /** Nor is a part that was not handed over a part of this operator. */
  private void component(ObjectNode row) {
    String id = row.path("component_id").asText();
    boolean handedOver = pack.parts().stream().anyMatch(part -> part.toString().equals(id));
    if (!handedOver && !row.hasNonNull("owner")) {
      row.put("owner", pack.fromName());
    }
  }

  private void transcribed(ObjectNode row) {
    String before = row.path("transcribed_from").asText();
    String source = pack.source();
    String all = before.isEmpty() ? source : before + "; " + source;
    row.put(
        "transcribed_from",
        all.length() > LONGEST_SOURCE ? all.substring(0, LONGEST_SOURCE - 1) + "…" : all);
  }

  private void signed(ObjectNode row, UUID by) {
    transcribed(row);
    if (row.path("signed_by").asText().isEmpty()) {
      row.put("signed_by", pack.people().getOrDefault(by, pack.fromName()));
    }
  }

  /** One number an entry, whatever corrects it later. */
  private void numbered(ObjectNode row, String series) {
    String entry = row.path("entry_id").asText();
    row.put(
        "number", numbers.computeIfAbsent(entry, id -> number.apply(series, UUID.fromString(id))));
  }
}
