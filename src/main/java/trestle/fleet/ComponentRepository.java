package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.View;

@ApplicationScoped
class ComponentRepository {
  private static final String NEWEST =
      "c.happenedOn <= :upTo and c.ledgerSeq <= :known and not exists (select 1 from ComponentRow n"
          + " where n.componentId = c.componentId and n.ledgerSeq > c.ledgerSeq"
          + " and n.ledgerSeq <= :known and n.happenedOn <= :upTo)";

  @Inject EntityManager entities;

  /** Until the commit no other transaction fits, removes or overhauls this component. */
  boolean lock(UUID componentId) {
    return !entities
        .createNativeQuery(
            "select id from component where component_id = :id order by ledger_seq limit 1"
                + " for update",
            UUID.class)
        .setParameter("id", componentId)
        .getResultList()
        .isEmpty();
  }

  List<ComponentRow> components(View view) {
    return inView(
            "from ComponentRow c where "
                + NEWEST
                + " order by c.partNumber, c.serial, c.componentId",
            ComponentRow.class,
            view)
        .getResultList();
  }

  List<ComponentRow> components(Collection<UUID> componentIds, View view) {
    return inView(
            "from ComponentRow c where c.componentId in :ids and " + NEWEST,
            ComponentRow.class,
            view)
        .setParameter("ids", componentIds)
        .getResultList();
  }

  Optional<ComponentRow> withSerial(String partNumber, String serial) {
    return inView(
            "from ComponentRow c where lower(c.partNumber) = lower(:part)"
                + " and lower(c.serial) = lower(:serial) and "
                + NEWEST,
            ComponentRow.class,
            View.EVERYTHING)
        .setParameter("part", partNumber)
        .setParameter("serial", serial)
        .getResultStream()
        .findFirst();
  }

  List<ComponentOpening> openings(Collection<UUID> componentIds, View view) {
    return inView(
            "from ComponentOpening o where o.componentId in :ids and "
                + current("ComponentOpening", "o")
                + " order by o.happenedAt, o.ledgerSeq",
            ComponentOpening.class,
            view)
        .setParameter("ids", componentIds)
        .getResultList();
  }

  List<ComponentOverhaul> overhauls(Collection<UUID> componentIds, View view) {
    return inView(
            "from ComponentOverhaul o where o.componentId in :ids and o.isVoid = false and "
                + current("ComponentOverhaul", "o")
                + " order by o.happenedAt, o.ledgerSeq",
            ComponentOverhaul.class,
            view)
        .setParameter("ids", componentIds)
        .getResultList();
  }

  /** Every fitment row that the view knows, corrected ones too, in the order of filing. */
  List<Fitment> fitmentsOfAircraft(Collection<UUID> aircraftIds, View view) {
    return known("from Fitment f where f.aircraftId in :ids", Fitment.class, aircraftIds, view);
  }

  List<Fitment> fitmentsOfComponents(Collection<UUID> componentIds, View view) {
    return known("from Fitment f where f.componentId in :ids", Fitment.class, componentIds, view);
  }

  List<Removal> removals(Collection<UUID> fitmentIds, View view) {
    return known("from Removal f where f.fitmentId in :ids", Removal.class, fitmentIds, view);
  }

  private <T> List<T> known(String hql, Class<T> type, Collection<UUID> ids, View view) {
    if (ids.isEmpty()) {
      return List.of();
    }
    return entities
        .createQuery(hql + " and f.ledgerSeq <= :known order by f.ledgerSeq", type)
        .setParameter("ids", ids)
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  private <T> TypedQuery<T> inView(String hql, Class<T> type, View view) {
    return entities
        .createQuery(hql, type)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound());
  }

  private static String current(String entity, String alias) {
    return alias
        + ".happenedOn <= :upTo and "
        + alias
        + ".ledgerSeq <= :known and not exists (select 1 from "
        + entity
        + " n where n.corrects = "
        + alias
        + ".id and n.ledgerSeq <= :known)";
  }
}
