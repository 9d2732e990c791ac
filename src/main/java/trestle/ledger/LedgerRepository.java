package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.time.Instant;
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

  long lastSeqBefore(UUID operatorId, Instant moment) {
    return entities
        .createQuery(
            "select coalesce(max(e.seq), 0L) from LedgerEntry e"
                + " where e.operatorId = :operator and e.recordedAt < :moment",
            Long.class)
        .setParameter("operator", operatorId)
        .setParameter("moment", moment)
        .getSingleResult();
  }

  /** The series' row stays locked until the commit. */
  long nextNumber(UUID operatorId, String series) {
    return (Long)
        entities
            .createNativeQuery(
                "insert into numbering (operator_id, series, last) values (:operator, :series, 1)"
                    + " on conflict (operator_id, series) do update set last = numbering.last + 1"
                    + " returning last",
                Long.class)
            .setParameter("operator", operatorId)
            .setParameter("series", series)
            .getSingleResult();
  }

  void persist(Object row) {
    entities.persist(row);
  }
}
