package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Revocable;
import trestle.ledger.View;

/** Readings, what they are judged by, and pictures: what stands beside the words of a line. */
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

  /** Those that stand of the lines of some orders, in a view. */
  List<WorkReading> ofOrders(Collection<UUID> orders, View view) {
    return entities
        .createQuery(
            "from WorkReading r where r.lineEntryId in ("
                + WorkRepository.LINES
                + ") and r.voided is null and "
                + WorkRepository.current("WorkReading", "r")
                + " order by r.happenedAt, r.ledgerSeq",
            WorkReading.class)
        .setParameter("ids", orders)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
        .getResultList();
  }

  /** Likewise the pictures. */
  List<LinePhoto> photos(Collection<UUID> orders, View view) {
    return entities
        .createQuery(
            "from LinePhoto p where p.lineEntryId in ("
                + WorkRepository.LINES
                + ") and "
                + WorkRepository.known("p")
                + " and "
                + Revocable.stands("LinePhoto", "p")
                + " order by p.ledgerSeq",
            LinePhoto.class)
        .setParameter("ids", orders)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
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
