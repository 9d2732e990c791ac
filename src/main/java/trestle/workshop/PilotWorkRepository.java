package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.Revocable;

/** Pilots' own work, and where it is allowed. */
@ApplicationScoped
class PilotWorkRepository {
  @Inject EntityManager entities;

  Optional<PilotWorkRule> rule(UUID aircraftId) {
    return entities
        .createQuery(
            "from PilotWorkRule r where r.aircraftId = :id and "
                + Revocable.stands("PilotWorkRule", "r")
                + " order by r.ledgerSeq desc",
            PilotWorkRule.class)
        .setParameter("known", Long.MAX_VALUE)
        .setParameter("id", aircraftId)
        .setMaxResults(1)
        .getResultStream()
        .findFirst();
  }

  List<PilotWork> works(UUID aircraftId) {
    return entities
        .createQuery(
            "from PilotWork w where w.aircraftId = :id and "
                + Revocable.stands("PilotWork", "w")
                + " order by w.happenedAt desc, w.ledgerSeq desc",
            PilotWork.class)
        .setParameter("known", Long.MAX_VALUE)
        .setParameter("id", aircraftId)
        .setMaxResults(100)
        .getResultList();
  }
}
