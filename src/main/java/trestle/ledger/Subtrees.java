package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.MerkleSpans.Subtree;

/** Roots of full subtrees: those that are kept, and what is missing computed from the leaves. */
@ApplicationScoped
class Subtrees {
  @Inject LedgerRepository repository;

  /**
   * @throws NoSuchElementException when the ledger has not all of the leaves
   */
  Map<Subtree, byte[]> roots(UUID operatorId, Set<Subtree> wanted) {
    Map<Subtree, byte[]> roots = new HashMap<>();
    List<Subtree> large =
        wanted.stream().filter(each -> each.level() >= LedgerSubtree.LEAST_LEVEL).toList();
    repository.subtrees(operatorId, large).forEach(kept -> roots.put(place(kept), kept.root));
    Set<Subtree> missing = new HashSet<>(wanted);
    missing.removeAll(roots.keySet());
    if (!missing.isEmpty()) {
      fromLeaves(operatorId, missing, roots);
    }
    return roots;
  }

  private static Subtree place(LedgerSubtree kept) {
    return new Subtree(kept.level, kept.place);
  }

  private void fromLeaves(UUID operatorId, Set<Subtree> wanted, Map<Subtree, byte[]> roots) {
    List<Subtree> outermost = outermost(wanted);
    Growing growing = new Growing(outermost, wanted, roots);
    repository.leaves(operatorId, outermost, growing::take);
    if (!roots.keySet().containsAll(wanted)) {
      throw new NoSuchElementException("The ledger has fewer lines than a proof was asked for");
    }
  }

  /** Full subtrees lie beside or within one another: those that lie in no other, in order. */
  private static List<Subtree> outermost(Collection<Subtree> wanted) {
    List<Subtree> sorted = new ArrayList<>(wanted);
    sorted.sort(
        Comparator.comparingLong(Subtree::from)
            .thenComparing(Comparator.comparingInt(Subtree::level).reversed()));
    List<Subtree> outermost = new ArrayList<>();
    long end = 0;
    for (Subtree each : sorted) {
      if (each.from() >= end) {
        outermost.add(each);
        end = each.to();
      }
    }
    return outermost;
  }

  /** Takes the leaves of several subtrees one after another. */
  private static final class Growing {
    private final Set<Subtree> wanted;
    private final Map<Subtree, byte[]> roots;
    private final java.util.Iterator<Subtree> next;
    private Subtree now;
    private MerkleFrontier edge = MerkleFrontier.EMPTY;

    Growing(List<Subtree> outermost, Set<Subtree> wanted, Map<Subtree, byte[]> roots) {
      this.next = outermost.iterator();
      this.wanted = wanted;
      this.roots = roots;
    }

    void take(long seq, byte[] leaf) {
      if (now == null || seq > now.to()) {
        now = next.next();
        edge = MerkleFrontier.EMPTY;
      }
      if (seq - 1 == now.from() + edge.size()) {
        edge = edge.append(leaf, this::complete);
      }
    }

    private void complete(int level, long place, byte[] root) {
      Subtree full = new Subtree(level, (now.from() >> level) + place);
      if (wanted.contains(full)) {
        roots.put(full, root);
      }
    }
  }
}
