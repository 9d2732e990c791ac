package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.UUID;

/**
 * Numbers for people to say aloud, "No. 231": one series an operator, without a gap. A number
 * belongs to the transaction that took it, and is given again when that comes to nothing.
 */
@ApplicationScoped
public class Numbers {
  @Inject LedgerRepository repository;

  /**
   * The next number of a series. Take it shortly before filing: like filing, it keeps others of the
   * operator waiting until the commit.
   */
  public long next(UUID operatorId, String series) {
    // The ledger's head first, as every filing locks it: two locks in two orders would deadlock
    // where one transaction files twice.
    repository.lockHead(operatorId);
    return repository.nextNumber(operatorId, series);
  }
}
