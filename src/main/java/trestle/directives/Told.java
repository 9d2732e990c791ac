package trestle.directives;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * How one paragraph stands for all that it may be about: how many in each state, and some of them.
 *
 * @param counts of every state that any is in, in their order
 * @param rows how many there are of those asked for
 * @param lines some of those, in order
 */
public record Told(
    DirectiveSheet directive,
    ParagraphSheet paragraph,
    Map<Judged.State, Integer> counts,
    int rows,
    List<Status.Line> lines) {

  /** How many are in one state. */
  public record Count(Judged.State state, int many) {}

  static Map<Judged.State, Integer> counts(List<Status.Line> lines, int neverJudged) {
    Map<Judged.State, Integer> counts = new EnumMap<>(Judged.State.class);
    if (neverJudged > 0) {
      counts.put(Judged.State.TO_BE_ASSESSED, neverJudged);
    }
    lines.forEach(line -> counts.merge(line.judged().state(), 1, Integer::sum));
    return counts;
  }

  public List<Count> counted() {
    return counts.entrySet().stream()
        .map(entry -> new Count(entry.getKey(), entry.getValue()))
        .toList();
  }

  public int all() {
    return counts.values().stream().mapToInt(Integer::intValue).sum();
  }
}
