package trestle.programme;

import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;

/** Which requirements a complete doing of another also does: one way, through several steps. */
final class Coverings {

  /** What one revision covers. */
  record Cover(
      UUID requirementId,
      String title,
      LocalDate inForceFrom,
      Long sequence,
      UUID[] covers,
      Boolean withdrawn,
      Long under) {}

  private final Map<UUID, Chain<Cover>> chains;

  /**
   * @param revisions all known revisions of every requirement of which some revision covers another
   */
  Coverings(List<Cover> revisions) {
    chains =
        revisions.stream()
            .collect(
                Collectors.groupingBy(
                    Cover::requirementId,
                    Collectors.collectingAndThen(
                        Collectors.toList(),
                        chain -> Chain.of(chain, Cover::inForceFrom, Cover::sequence))));
  }

  /**
   * All that a complete doing of a requirement on a day also did, itself not among them.
   *
   * @param under up to which revision its programme had been taken up by then
   */
  Set<UUID> coveredBy(UUID requirement, LocalDate day, long under) {
    if (!chains.containsKey(requirement)) {
      return Set.of();
    }
    Set<UUID> covered = new LinkedHashSet<>();
    Deque<UUID> open = new ArrayDeque<>(List.of(requirement));
    while (!open.isEmpty()) {
      for (UUID next : direct(open.pop(), day, under)) {
        if (!next.equals(requirement) && covered.add(next)) {
          open.push(next);
        }
      }
    }
    return covered;
  }

  /** The title by which a requirement went on a day, where it is known to cover others. */
  String title(UUID requirement, LocalDate day, long under) {
    Chain<Cover> chain = chains.get(requirement);
    return chain == null ? null : judging(chain, day, under).title();
  }

  /** What the latest revisions say; the graph that must stay free of cycles. */
  UUID[] latest(UUID requirement) {
    Chain<Cover> chain = chains.get(requirement);
    return chain == null ? new UUID[0] : chain.latest().covers();
  }

  private UUID[] direct(UUID requirement, LocalDate day, long under) {
    Chain<Cover> chain = chains.get(requirement);
    return chain == null ? new UUID[0] : judging(chain, day, under).covers();
  }

  private static Cover judging(Chain<Cover> chain, LocalDate day, long under) {
    return chain.upTo(cover -> cover.under() <= under).judging(day);
  }
}
