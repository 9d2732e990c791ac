package trestle.standing;

import java.util.List;
import java.util.UUID;

/**
 * An extension that stands: one occurrence of one limit, put off by someone entitled to.
 *
 * @param limit the path of indexes down to the limit
 * @param due the new due point on the limit's scale (seconds, a count, an epoch day)
 */
public record Granted(
    UUID extensionId, List<Integer> limit, long due, String approvedBy, String reference) {

  public Granted {
    limit = List.copyOf(limit);
  }
}
