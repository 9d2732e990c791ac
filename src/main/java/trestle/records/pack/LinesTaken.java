package trestle.records.pack;

import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Consumer;
import trestle.ledger.Extracts;
import trestle.ledger.Line;

/** Lines of an operator's ledger that go into a pack, by their place, with their kind. */
final class LinesTaken {
  private final Extracts extracts;
  private final UUID operator;
  private final long size;
  private final TreeMap<Long, String> lines = new TreeMap<>();

  LinesTaken(Extracts extracts, UUID operator, long size) {
    this.extracts = extracts;
    this.operator = operator;
    this.size = size;
  }

  TreeMap<Long, String> all() {
    return lines;
  }

  List<Extracts.Mark> ofAircraft(UUID aircraft) {
    return extracts.ofAircraft(operator, aircraft, size);
  }

  Set<String> recordsOf(String kind) {
    Set<String> ids = new HashSet<>();
    each(Set.of(kind), line -> ids.add(line.recordId().toString()));
    return ids;
  }

  List<Extracts.Mark> named(List<String> kinds, String field, UUID id) {
    return naming(kinds, field, List.of(id.toString()));
  }

  List<Extracts.Mark> naming(List<String> kinds, String field, Collection<String> values) {
    return extracts.naming(operator, kinds, field, values, size);
  }

  void take(List<Extracts.Mark> marks) {
    marks.forEach(mark -> lines.put(mark.seq(), mark.kind()));
  }

  void take(Line line) {
    lines.put(line.seq(), line.kind());
  }

  /** Reads lines that were taken, a few at a time. */
  void each(Set<String> kinds, Consumer<Line> reader) {
    read(
        lines.entrySet().stream()
            .filter(line -> kinds.contains(line.getValue()))
            .map(Map.Entry::getKey)
            .toList(),
        reader);
  }

  void read(List<Long> seqs, Consumer<Line> reader) {
    for (int from = 0; from < seqs.size(); from += Selecting.AT_ONCE) {
      extracts
          .at(operator, seqs.subList(from, Math.min(from + Selecting.AT_ONCE, seqs.size())))
          .forEach(reader);
    }
  }
}
