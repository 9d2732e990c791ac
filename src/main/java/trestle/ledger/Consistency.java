package trestle.ledger;

import java.util.Arrays;
import java.util.List;

/**
 * That a ledger of one size only grew into that of another: nothing of the older one was changed,
 * removed or put in between (RFC 6962, 2.1.2).
 *
 * @param oldSize at least 1
 * @param path empty where both sizes are the same
 */
public record Consistency(long oldSize, long size, List<byte[]> path) {

  public Consistency {
    path = List.copyOf(path);
  }

  /** Whether the two roots belong to one ledger, at its two sizes. */
  public boolean holds(byte[] oldRoot, byte[] root) {
    if (oldSize < 1 || oldSize > size) {
      return false;
    }
    if (oldSize == size) {
      return path.isEmpty() && Arrays.equals(oldRoot, root);
    }
    return !path.isEmpty() && grows(oldRoot, root);
  }

  /** RFC 9162, 2.1.4.2. */
  private boolean grows(byte[] oldRoot, byte[] root) {
    boolean full = Long.bitCount(oldSize) == 1;
    long node = oldSize - 1;
    long last = size - 1;
    while ((node & 1) == 1) {
      node >>= 1;
      last >>= 1;
    }
    byte[] older = full ? oldRoot : path.get(0);
    byte[] newer = older;
    for (byte[] sibling : path.subList(full ? 0 : 1, path.size())) {
      if (last == 0) {
        return false;
      }
      if ((node & 1) == 1 || node == last) {
        older = MerkleFrontier.node(sibling, older);
        newer = MerkleFrontier.node(sibling, newer);
        while ((node & 1) == 0 && node != 0) {
          node >>= 1;
          last >>= 1;
        }
      } else {
        newer = MerkleFrontier.node(newer, sibling);
      }
      node >>= 1;
      last >>= 1;
    }
    return last == 0 && Arrays.equals(older, oldRoot) && Arrays.equals(newer, root);
  }
}
