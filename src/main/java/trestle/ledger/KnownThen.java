package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.UUID;

/** What an operator's ledger held at an earlier moment. */
@ApplicationScoped
public class KnownThen {
  @Inject LedgerRepository repository;

  /** The last sequence that was filed before a moment; 0 where nothing was. */
  public long before(UUID operatorId, Instant moment) {
    return repository.lastSeqBefore(operatorId, moment);
  }
}
