package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** What orders cost, and what labour costs. */
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

  /** All that were ever stated, by name, then by the day from which they count. */
  List<LabourRate> rates() {
    return entities
        .createQuery(
            "from LabourRate r order by lower(r.name), r.happenedOn, r.ledgerSeq", LabourRate.class)
        .getResultList();
  }

  Optional<ApprovalRule> approvalRule() {
    return entities
        .createQuery("from ApprovalRule r order by r.ledgerSeq desc", ApprovalRule.class)
        .setMaxResults(1)
        .getResultStream()
        .findFirst();
  }
}
