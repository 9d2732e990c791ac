package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Revocable;

/** Readings and what they are judged by. */
@ApplicationScoped
class ReadingRepository {
  private static final String STANDING =
      "r.voided is null and not exists (select 1 from WorkReading later where later.corrects ="
          + " r.id) order by r.happenedAt, r.ledgerSeq";

  @Inject EntityManager entities;

  List<WorkReading> ofLine(UUID lineId) {
    return entities
        .createQuery(
            "from WorkReading r where r.lineEntryId = :id and " + STANDING, WorkReading.class)
        .setParameter("id", lineId)
        .getResultList();
  }

  List<WorkReading> ofComponent(UUID componentId) {
    return entities
        .createQuery(
            "from WorkReading r where r.componentId = :id and " + STANDING, WorkReading.class)
        .setParameter("id", componentId)
        .getResultList();
  }

  /** All that were stated of some components and not taken away, the newest last. */
  List<ReadingLimit> limits(List<UUID> componentIds) {
    return componentIds.isEmpty()
        ? List.of()
        : entities
            .createQuery(
                "from ReadingLimit l where l.componentId in :ids and "
                    + Revocable.stands("ReadingLimit", "l")
                    + " order by l.ledgerSeq",
                ReadingLimit.class)
            .setParameter("known", Long.MAX_VALUE)
            .setParameter("ids", componentIds)
            .getResultList();
  }
}
