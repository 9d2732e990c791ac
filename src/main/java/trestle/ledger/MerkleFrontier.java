package trestle.ledger;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * The right edge of an RFC 6962 Merkle tree: the roots of its perfect subtrees, largest first.
 * Enough to append leaves and to tell the root, in space and time of the logarithm of the size.
 *
 * <p>Leaf = SHA-256(0x00 ‖ data), node = SHA-256(0x01 ‖ left ‖ right), the tree of n leaves split
 * at the largest power of two below n; the empty tree is SHA-256 of nothing (RFC 6962, 2.1).
 */
public record MerkleFrontier(long size, List<byte[]> subtrees) {
  public static final MerkleFrontier EMPTY = new MerkleFrontier(0, List.of());
  private static final int HASH_BYTES = 32;

  public MerkleFrontier {
    subtrees = Collections.unmodifiableList(new ArrayList<>(subtrees));
    if (subtrees.size() != Long.bitCount(size)) {
      throw new IllegalArgumentException("A tree of " + size + " leaves has another frontier");
    }
  }

  /** Reads back what {@link #bytes()} wrote. */
  public static MerkleFrontier of(long size, byte[] bytes) {
    List<byte[]> subtrees = new ArrayList<>();
    for (int at = 0; at < bytes.length; at += HASH_BYTES) {
      subtrees.add(Arrays.copyOfRange(bytes, at, at + HASH_BYTES));
    }
    return new MerkleFrontier(size, subtrees);
  }

  /** Told of every full subtree that a leaf completes, the leaf itself first. */
  public interface Completed {
    void full(int level, long place, byte[] root);
  }

  public MerkleFrontier append(byte[] leaf) {
    return append(leaf, (level, place, root) -> {});
  }

  public MerkleFrontier append(byte[] leaf, Completed completed) {
    MerkleBuilder builder = new MerkleBuilder(this, completed);
    builder.append(leaf);
    return builder.frontier();
  }

  public byte[] root() {
    if (size == 0) {
      return sha256().digest();
    }
    byte[] root = subtrees.get(subtrees.size() - 1);
    for (int i = subtrees.size() - 2; i >= 0; i--) {
      root = node(subtrees.get(i), root);
    }
    return root;
  }

  public byte[] bytes() {
    byte[] all = new byte[subtrees.size() * HASH_BYTES];
    for (int i = 0; i < subtrees.size(); i++) {
      System.arraycopy(subtrees.get(i), 0, all, i * HASH_BYTES, HASH_BYTES);
    }
    return all;
  }

  public static byte[] leaf(byte[] data) {
    MessageDigest digest = sha256();
    digest.update((byte) 0);
    return digest.digest(data);
  }

  static byte[] node(byte[] left, byte[] right) {
    MessageDigest digest = sha256();
    digest.update((byte) 1);
    digest.update(left);
    return digest.digest(right);
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Every Java has SHA-256", e);
    }
  }
}
