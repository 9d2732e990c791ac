package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.util.UUID;

@ApplicationScoped
class LedgerRepository {
  @Inject EntityManager entities;

  /** Locks the operator's head row: from here to the commit no other transaction files there. */
  LedgerHead lockHead(UUID operatorId) {
    return entities.find(LedgerHead.class, operatorId, LockModeType.PESSIMISTIC_WRITE);
  }

  LedgerHead head(UUID operatorId) {
    return entities.find(LedgerHead.class, operatorId);
  }

  void persist(Object row) {
    entities.persist(row);
  }
}
