package trestle.records;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.UUID;

@ApplicationScoped
class VerificationRepository {
  @Inject EntityManager entities;

  void persist(Verification verification) {
    entities.persist(verification);
  }

  List<Verification> newest(UUID operatorId, int most) {
    return entities
        .createQuery(
            "select v from Verification v where v.operatorId = :operator"
                + " order by v.beganAt desc, v.id desc",
            Verification.class)
        .setParameter("operator", operatorId)
        .setMaxResults(most)
        .getResultList();
  }
}
