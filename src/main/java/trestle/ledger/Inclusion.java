package trestle.ledger;

import java.util.List;

/**
 * That a leaf stands at a place of a tree of a size (RFC 6962, 2.1.1), as far as the root tells.
 *
 * @param seq the line's sequence in its ledger, from 1
 * @param size of the ledger that the proof is about
 * @param leaf SHA-256(0x00 ‖ the record's canonical JSON)
 * @param path the siblings, from the leaf up
 */
public record Inclusion(long seq, long size, byte[] leaf, List<byte[]> path) {

  public Inclusion {
    path = List.copyOf(path);
  }

  /**
   * The root that this leaf and path lead to; the proof holds when it is the head's.
   *
   * @throws IllegalArgumentException when the path is longer or shorter than the size asks for
   */
  public byte[] root() {
    if (seq < 1 || seq > size) {
      throw new IllegalArgumentException(
          "record " + seq + " is not one of the " + size + " that the head counts");
    }
    // RFC 9162, 2.1.3.2, which says in steps what RFC 6962 leaves to the reader.
    long node = seq - 1;
    long last = size - 1;
    byte[] root = leaf;
    for (byte[] sibling : path) {
      if (last == 0) {
        throw new IllegalArgumentException("the path is longer than the size asks for");
      }
      if ((node & 1) == 1 || node == last) {
        root = MerkleFrontier.node(sibling, root);
        while ((node & 1) == 0 && node != 0) {
          node >>= 1;
          last >>= 1;
        }
      } else {
        root = MerkleFrontier.node(root, sibling);
      }
      node >>= 1;
      last >>= 1;
    }
    if (last != 0) {
      throw new IllegalArgumentException("the path is shorter than the size asks for");
    }
    return root;
  }
}
