package trestle.records.pack;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.Extracts;

/** Takes of an aircraft that is not handed over what the totals of a part that is are told from. */
final class OtherAircraft {
  private static final Set<String> KINDS =
      Set.of(
          "aircraft-particulars",
          "aircraft-position",
          "counter-opening",
          "meter-change",
          "journey-log-entry",
          "break-explanation");

  private final LinesTaken lines;

  OtherAircraft(LinesTaken lines) {
    this.lines = lines;
  }

  /** Its flights until the part left it, with those that correct them; a day's end for safety. */
  void take(UUID aircraft, Instant until) {
    List<Extracts.Mark> all =
        lines.ofAircraft(aircraft).stream().filter(mark -> KINDS.contains(mark.kind())).toList();
    Map<String, Set<UUID>> rowsOfEntry = new HashMap<>();
    Set<UUID> kept = new HashSet<>();
    Set<String> early = new HashSet<>();
    Map<Long, String> explained = new HashMap<>();
    lines.read(
        all.stream().map(Extracts.Mark::seq).toList(),
        line -> {
          JsonNode json = Selecting.json(line);
          if (line.kind().equals("journey-log-entry")) {
            String entry = json.path("entry_id").asText();
            rowsOfEntry.computeIfAbsent(entry, id -> new HashSet<>()).add(line.recordId());
            if (!Instant.parse(json.path("take_off_at").asText()).isAfter(until)) {
              early.add(entry);
            }
          } else if (line.kind().equals("break-explanation")) {
            explained.put(line.seq(), json.path("flight_id").asText());
          }
        });
    early.forEach(entry -> kept.addAll(rowsOfEntry.get(entry)));
    lines.take(
        all.stream()
            .filter(
                mark ->
                    switch (mark.kind()) {
                      case "journey-log-entry" -> kept.contains(mark.recordId());
                      case "break-explanation" ->
                          kept.contains(UUID.fromString(explained.get(mark.seq())));
                      default -> true;
                    })
            .toList());
  }
}
