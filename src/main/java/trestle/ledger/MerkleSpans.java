package trestle.ledger;

import java.util.ArrayList;
import java.util.List;

/**
 * Which parts of an RFC 6962 tree make a proof (2.1.1 and 2.1.2), told without a hash: spans of
 * leaves, counted from 0, each the union of few full subtrees.
 */
final class MerkleSpans {

  private MerkleSpans() {}

  /** Leaves {@code from} to before {@code to}; begins where a subtree of its size may. */
  record Span(long from, long to) {

    /** The full subtrees of the span, largest first: folded from the right they give its root. */
    List<Subtree> parts() {
      List<Subtree> parts = new ArrayList<>();
      for (long at = from; at < to; ) {
        long size = Long.highestOneBit(to - at);
        int level = Long.numberOfTrailingZeros(size);
        parts.add(new Subtree(level, at >> level));
        at += size;
      }
      return parts;
    }
  }

  /**
   * A full subtree.
   *
   * @param level of 2^level leaves
   * @param place how many of its size stand before it
   */
  record Subtree(int level, long place) {
    long from() {
      return place << level;
    }

    long to() {
      return place + 1 << level;
    }
  }

  /** PATH(index, D[size]): the siblings from the leaf up to the root. */
  static List<Span> inclusion(long index, long size) {
    if (index < 0 || index >= size) {
      throw new IllegalArgumentException("A tree of " + size + " has no leaf " + index);
    }
    List<Span> path = new ArrayList<>();
    path(index, new Span(0, size), path);
    return path;
  }

  private static void path(long index, Span tree, List<Span> path) {
    if (tree.to() - tree.from() == 1) {
      return;
    }
    long split = tree.from() + split(tree.to() - tree.from());
    Span left = new Span(tree.from(), split);
    Span right = new Span(split, tree.to());
    path(index, index < split ? left : right, path);
    path.add(index < split ? right : left);
  }

  /** PROOF(old, D[size]): what shows that the tree of {@code old} leaves only grew. */
  static List<Span> consistency(long old, long size) {
    if (old < 1 || old > size) {
      throw new IllegalArgumentException("A tree of " + size + " did not grow from " + old);
    }
    List<Span> path = new ArrayList<>();
    subProof(old, new Span(0, size), true, path);
    return path;
  }

  private static void subProof(long old, Span tree, boolean whole, List<Span> path) {
    if (old == tree.to()) {
      if (!whole) {
        path.add(tree);
      }
      return;
    }
    long split = tree.from() + split(tree.to() - tree.from());
    Span left = new Span(tree.from(), split);
    Span right = new Span(split, tree.to());
    if (old <= split) {
      subProof(old, left, whole, path);
      path.add(right);
    } else {
      subProof(old, right, false, path);
      path.add(left);
    }
  }

  /** The largest power of two below n. */
  private static long split(long n) {
    return Long.highestOneBit(n - 1);
  }
}
