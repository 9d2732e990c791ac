package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.UUID;

/** What orders cost. */
@ApplicationScoped
class CostRepository {
  @Inject EntityManager entities;

  List<WorkCost> of(UUID orderId) {
    return entities
        .createQuery(
            "from WorkCost c where c.orderEntryId = :id and c.voided is null and not exists (select"
                + " 1 from WorkCost later where later.corrects = c.id) order by c.ledgerSeq",
            WorkCost.class)
        .setParameter("id", orderId)
        .getResultList();
  }
}
