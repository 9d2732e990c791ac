package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.UUID;

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

  /** All that were ever stated of some components, the newest last. */
  List<ReadingLimit> limits(List<UUID> componentIds) {
    return componentIds.isEmpty()
        ? List.of()
        : entities
            .createQuery(
                "from ReadingLimit l where l.componentId in :ids order by l.ledgerSeq",
                ReadingLimit.class)
            .setParameter("ids", componentIds)
            .getResultList();
  }
}
