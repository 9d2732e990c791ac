package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.MerkleSpans.Span;
import trestle.ledger.MerkleSpans.Subtree;

/**
 * Proofs about an operator's ledger, made from its stored leaves and the roots of full subtrees, in
 * two statements however large the ledger. Within the caller's transaction.
 */
@ApplicationScoped
public class Proofs {
  @Inject Subtrees subtrees;

  /**
   * That a line stands in the ledger of a size.
   *
   * @param size of the head that the proof is for; at most the ledger's own
   */
  public Inclusion inclusion(UUID operatorId, long seq, long size) {
    return inclusions(operatorId, List.of(seq), size).get(0);
  }

  /** The same of several lines, in the order given; a thousand at a time keep memory small. */
  public List<Inclusion> inclusions(UUID operatorId, Collection<Long> seqs, long size) {
    Set<Subtree> wanted = new HashSet<>();
    for (long seq : seqs) {
      wanted.add(leafOf(seq));
      MerkleSpans.inclusion(seq - 1, size).forEach(span -> wanted.addAll(span.parts()));
    }
    Map<Subtree, byte[]> roots = subtrees.roots(operatorId, wanted);
    return seqs.stream().map(seq -> inclusion(seq, size, roots)).toList();
  }

  private static Inclusion inclusion(long seq, long size, Map<Subtree, byte[]> roots) {
    List<byte[]> path = hashes(MerkleSpans.inclusion(seq - 1, size), roots);
    return new Inclusion(seq, size, roots.get(leafOf(seq)), path);
  }

  private static Subtree leafOf(long seq) {
    return new Subtree(0, seq - 1);
  }

  /** That the ledger of a size only grew into that of another. */
  public Consistency consistency(UUID operatorId, long oldSize, long size) {
    List<Span> spans = MerkleSpans.consistency(oldSize, size);
    return new Consistency(oldSize, size, hashes(spans, roots(operatorId, spans)));
  }

  /** The root that the ledger had when it held so many lines; at least one. */
  public byte[] root(UUID operatorId, long size) {
    List<Span> whole = List.of(new Span(0, size));
    return hashes(whole, roots(operatorId, whole)).get(0);
  }

  private Map<Subtree, byte[]> roots(UUID operatorId, List<Span> spans) {
    Set<Subtree> wanted = new HashSet<>();
    spans.forEach(span -> wanted.addAll(span.parts()));
    return subtrees.roots(operatorId, wanted);
  }

  private static List<byte[]> hashes(List<Span> spans, Map<Subtree, byte[]> roots) {
    List<byte[]> hashes = new ArrayList<>();
    for (Span span : spans) {
      List<byte[]> parts = span.parts().stream().map(roots::get).toList();
      hashes.add(new MerkleFrontier(span.to() - span.from(), parts).root());
    }
    return hashes;
  }
}
