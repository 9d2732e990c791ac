package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Revocable;
import trestle.ledger.View;

@ApplicationScoped
class ConfigurationRepository {
  @Inject EntityManager entities;

  List<Modification> modifications(Collection<UUID> aircraftIds, View view) {
    return newest("Modification", "modificationId", Modification.class, "code", aircraftIds, view);
  }

  List<Equipment> equipment(Collection<UUID> aircraftIds, View view) {
    return entities
        .createQuery(
            "from Equipment t where t.aircraftId in :ids and t.happenedOn <= :upTo"
                + " and t.ledgerSeq <= :known and "
                + Revocable.stands("Equipment", "t")
                + " and not exists (select 1 from Equipment n where n.equipmentId = t.equipmentId"
                + " and n.ledgerSeq <= :known and n.happenedOn <= :upTo and "
                + Revocable.stands("Equipment", "n")
                + " and (n.happenedAt > t.happenedAt or n.happenedAt = t.happenedAt"
                + " and n.ledgerSeq > t.ledgerSeq)) order by t.name, t.equipmentId",
            Equipment.class)
        .setParameter("ids", aircraftIds)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  List<WeightEntry> weights(Collection<UUID> aircraftIds, View view) {
    return entities
        .createQuery(
            "from WeightEntry w where w.aircraftId in :ids and w.isVoid = false"
                + " and w.happenedOn <= :upTo and w.ledgerSeq <= :known and not exists"
                + " (select 1 from WeightEntry n where n.corrects = w.id and n.ledgerSeq <= :known)"
                + " order by w.happenedAt, w.ledgerSeq",
            WeightEntry.class)
        .setParameter("ids", aircraftIds)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** Of each thing the row that holds in the view. */
  private <T> List<T> newest(
      String entity, String id, Class<T> type, String order, Collection<UUID> ids, View view) {
    return entities
        .createQuery(
            "from %1$s t where t.aircraftId in :ids and t.happenedOn <= :upTo and t.ledgerSeq <= :known and not exists (select 1 from %1$s n where n.%2$s = t.%2$s and n.ledgerSeq <= :known and n.happenedOn <= :upTo and (n.happenedAt > t.happenedAt or n.happenedAt = t.happenedAt and n.ledgerSeq > t.ledgerSeq)) order by t.%3$s, t.%2$s"
                .formatted(entity, id, order),
            type)
        .setParameter("ids", ids)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }
}
