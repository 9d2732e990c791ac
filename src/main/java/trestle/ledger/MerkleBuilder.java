package trestle.ledger;

import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.List;
import trestle.ledger.MerkleFrontier.Completed;

/**
 * Grows a tree by very many leaves: what {@link MerkleFrontier} says, without a new frontier for
 * each of them. For one thread.
 */
public final class MerkleBuilder {
  private final MessageDigest digest = MerkleFrontier.sha256();
  private final List<byte[]> edge;
  private final Completed completed;
  private long size;

  public MerkleBuilder(Completed completed) {
    this(MerkleFrontier.EMPTY, completed);
  }

  MerkleBuilder(MerkleFrontier from, Completed completed) {
    edge = new ArrayList<>(from.subtrees());
    size = from.size();
    this.completed = completed;
  }

  public long size() {
    return size;
  }

  public byte[] leaf(byte[] data) {
    digest.update((byte) 0);
    return digest.digest(data);
  }

  /** The leaf is kept as it is given. */
  public void append(byte[] leaf) {
    edge.add(leaf);
    completed.full(0, size, leaf);
    int level = 0;
    for (long full = size; (full & 1) == 1; full >>= 1) {
      byte[] right = edge.remove(edge.size() - 1);
      byte[] root = node(edge.remove(edge.size() - 1), right);
      edge.add(root);
      level++;
      completed.full(level, full >> 1, root);
    }
    size++;
  }

  private byte[] node(byte[] left, byte[] right) {
    digest.update((byte) 1);
    digest.update(left);
    return digest.digest(right);
  }

  public MerkleFrontier frontier() {
    return new MerkleFrontier(size, edge);
  }
}
