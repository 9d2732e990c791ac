package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.View;

@ApplicationScoped
class AircraftRepository {
  @Inject EntityManager entities;

  void persist(Object row) {
    entities.persist(row);
  }

  /** What was filed so far in this transaction must be seen by plain SQL. */
  void flush() {
    entities.flush();
  }

  /** Until the commit no other transaction registers this mark in this operator. */
  void lockRegistration(UUID operatorId, String registration) {
    entities
        .createNativeQuery("select pg_advisory_xact_lock(hashtextextended(:mark, 0))", Object.class)
        .setParameter("mark", operatorId + " " + registration)
        .getResultList();
  }

  /** The newest particulars of each aircraft of the operator, in the view. */
  List<ParticularsRow> particulars(View view) {
    return inView(
            "from ParticularsRow p where "
                + newest("ParticularsRow", "p", "n.aircraftId = p.aircraftId")
                + " order by p.registration, p.aircraftId",
            ParticularsRow.class,
            view)
        .getResultList();
  }

  List<ParticularsRow> particulars(Collection<UUID> aircraftIds, View view) {
    return inView(
            "from ParticularsRow p where p.aircraftId in :ids and "
                + newest("ParticularsRow", "p", "n.aircraftId = p.aircraftId"),
            ParticularsRow.class,
            view)
        .setParameter("ids", aircraftIds)
        .getResultList();
  }

  /** All that was ever stated of the aircraft and is known in the view, in the order of filing. */
  List<ParticularsRow> allParticulars(Collection<UUID> aircraftIds, View view) {
    return entities
        .createQuery(
            "from ParticularsRow p where p.aircraftId in :ids and p.ledgerSeq <= :known"
                + " order by p.aircraftId, p.ledgerSeq",
            ParticularsRow.class)
        .setParameter("ids", aircraftIds)
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** Which row of each is the newest is told here: a join would look at all for each. */
  List<PositionRow> positions(Collection<UUID> aircraftIds, View view) {
    record Place(UUID aircraft, String code) {}
    Map<Place, PositionRow> newest = new LinkedHashMap<>();
    for (PositionRow row :
        inView(
                "from PositionRow p where p.aircraftId in :ids and p.happenedOn <= :upTo"
                    + " and p.ledgerSeq <= :known order by p.ledgerSeq",
                PositionRow.class,
                view)
            .setParameter("ids", aircraftIds)
            .getResultList()) {
      Place place = new Place(row.aircraftId, row.code);
      newest.remove(place);
      newest.put(place, row);
    }
    return newest.values().stream().filter(row -> !row.withdrawn).toList();
  }

  List<CounterOpening> openings(Collection<UUID> aircraftIds, View view) {
    return inView(
            "from CounterOpening o where o.aircraftId in :ids and "
                + current("CounterOpening", "o")
                + " order by o.happenedAt, o.ledgerSeq",
            CounterOpening.class,
            view)
        .setParameter("ids", aircraftIds)
        .getResultList();
  }

  List<MeterChange> meterChanges(Collection<UUID> aircraftIds, View view) {
    return inView(
            "from MeterChange m where m.aircraftId in :ids and m.isVoid = false and "
                + current("MeterChange", "m")
                + " order by m.happenedAt, m.ledgerSeq",
            MeterChange.class,
            view)
        .setParameter("ids", aircraftIds)
        .getResultList();
  }

  /** Groundings of the view that no lifting of the view has ended. */
  List<Grounding> standingGroundings(Collection<UUID> aircraftIds, View view) {
    return inView(
            "from Grounding g where g.aircraftId in :ids and g.lifts is null and "
                + current("Grounding", "g")
                + " and not exists (select 1 from Grounding l where l.lifts = g.id"
                + " and l.ledgerSeq <= :known and l.happenedOn <= :upTo) order by g.happenedAt",
            Grounding.class,
            view)
        .setParameter("ids", aircraftIds)
        .getResultList();
  }

  /** All groundings and liftings of one aircraft, newest first. */
  List<Grounding> groundings(UUID aircraftId, View view) {
    return inView(
            "from Grounding g where g.aircraftId = :id and "
                + current("Grounding", "g")
                + " order by g.ledgerSeq desc",
            Grounding.class,
            view)
        .setParameter("id", aircraftId)
        .getResultList();
  }

  <T extends Filed> Optional<T> row(Class<T> kind, UUID id) {
    return Optional.ofNullable(entities.find(kind, id));
  }

  /** The row that one form has filed already, if it has. */
  <T extends Filed> Optional<T> ofForm(Class<T> kind, UUID formKey) {
    if (formKey == null) {
      return Optional.empty();
    }
    return entities
        .createQuery("from " + kind.getSimpleName() + " r where r.formKey = :key", kind)
        .setParameter("key", formKey)
        .getResultStream()
        .findFirst();
  }

  boolean isCorrected(Class<? extends Filed> kind, UUID id) {
    return entities
            .createQuery(
                "select count(r) from " + kind.getSimpleName() + " r where r.corrects = :id",
                Long.class)
            .setParameter("id", id)
            .getSingleResult()
        > 0;
  }

  List<UUID> aircraftOf(Collection<UUID> aircraftIds) {
    return entities
        .createQuery("select a.id from Aircraft a where a.id in :ids", UUID.class)
        .setParameter("ids", aircraftIds)
        .getResultList();
  }

  /**
   * Locks the aircraft's revisions in one order, whoever asks, and moves each on.
   *
   * @return how many there were
   */
  int bump(Collection<UUID> aircraftIds) {
    entities.flush();
    return entities
        .createNativeQuery(
            "with locked as (select aircraft_id from aircraft_revision"
                + " where aircraft_id = any(:ids) order by aircraft_id for update)"
                + " update aircraft_revision r set revision = r.revision + 1"
                + " from locked where locked.aircraft_id = r.aircraft_id"
                + " and r.operator_id = current_operator()")
        .setParameter("ids", aircraftIds.toArray(UUID[]::new))
        .executeUpdate();
  }

  Map<UUID, Long> allRevisions() {
    Map<UUID, Long> revisions = new HashMap<>();
    entities
        .createQuery("select r.aircraftId, r.revision from AircraftRevision r", Object[].class)
        .getResultStream()
        .forEach(row -> revisions.put((UUID) row[0], (Long) row[1]));
    return revisions;
  }

  /** By an array, so that the statement is the same however many are asked for. */
  @SuppressWarnings("unchecked")
  Map<UUID, Long> revisions(Collection<UUID> aircraftIds) {
    Map<UUID, Long> revisions = new HashMap<>();
    List<Object[]> rows =
        entities
            .createNativeQuery(
                "select aircraft_id, revision from aircraft_revision where aircraft_id = any(:ids)")
            .setParameter("ids", aircraftIds.toArray(UUID[]::new))
            .getResultList();
    rows.forEach(row -> revisions.put((UUID) row[0], (Long) row[1]));
    return revisions;
  }

  private <T> TypedQuery<T> inView(String hql, Class<T> type, View view) {
    return entities
        .createQuery(hql, type)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound());
  }

  /** In the view, and not corrected by a row that the view knows. */
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

  /** The last that the view knows of several rows stating the same thing. */
  private static String newest(String entity, String alias, String same) {
    return alias
        + ".happenedOn <= :upTo and "
        + alias
        + ".ledgerSeq <= :known and not exists (select 1 from "
        + entity
        + " n where "
        + same
        + " and n.ledgerSeq > "
        + alias
        + ".ledgerSeq and n.ledgerSeq <= :known and n.happenedOn <= :upTo)";
  }
}
