package trestle.ledger.verify;

import java.util.Optional;
import java.util.UUID;

/**
 * What a verification found.
 *
 * @param size of the ledger, by its head
 * @param root of its head
 * @param textOnly true when only the stored text was hashed, and no row of a filed table looked at
 * @param trouble empty when everything agrees
 */
public record Verdict(
    UUID operatorId, long size, byte[] root, boolean textOnly, Optional<Trouble> trouble) {

  public boolean isSound() {
    return trouble.isEmpty();
  }
}
