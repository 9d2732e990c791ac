package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;

/** Which earlier defects of the operator are like some, and what people said of them. */
@ApplicationScoped
class RepeatRepository {
  private static final String CURRENT =
      " not exists (select 1 from defect r where r.operator_id = %1$s.operator_id"
          + " and r.corrects = %1$s.id)";

  private static final String STANDS =
      " w.voided is null and not exists (select 1 from defect_repeat v"
          + " where v.operator_id = w.operator_id and v.corrects = w.id)";

  /**
   * Where one of the two says neither place nor part, its chapter alone must do: a phone's report
   * says little, and a person decides.
   */
  private static final String LIKE =
      "d.chapter <> '' and e.chapter = d.chapter and (e.component_id = d.component_id"
          + " or e.aircraft_id = d.aircraft_id and (lower(e.place) = lower(d.place)"
          + " or e.place = '' and e.component_id is null"
          + " or d.place = '' and d.component_id is null))";

  private static final String CANDIDATES =
      "select d.entry_id, d.aircraft_id, d.happened_at, e.entry_id as earlier_id,"
          + " e.aircraft_id as earlier_aircraft, e.happened_at as earlier_at,"
          + " d.happened_on - e.happened_on as days,"
          + " coalesce(e.component_id = d.component_id, false) as same_component,"
          + " e.place <> '' and lower(e.place) = lower(d.place) as same_place, said.same,"
          + " e.component_id"
          + " from defect d join defect e on e.operator_id = d.operator_id"
          + " and e.entry_id <> d.entry_id"
          + " and (e.happened_at, e.number) < (d.happened_at, d.number)"
          + " and (e.aircraft_id = d.aircraft_id or e.component_id = d.component_id)"
          + " left join lateral (select w.same from defect_repeat w where"
          + " w.operator_id = d.operator_id and w.defect_entry_id = d.entry_id"
          + " and w.earlier_entry_id = e.entry_id and"
          + STANDS
          + " order by w.ledger_seq desc limit 1) said on true"
          + " where d.entry_id = any(:ids) and"
          + CURRENT.formatted("d")
          + " and"
          + CURRENT.formatted("e")
          + " and coalesce(said.same, "
          + LIKE
          + ") order by e.happened_at desc, e.number desc";

  /** What people last said of each two, followed back from one defect to all it came back from. */
  private static final String CONFIRMED =
      "with recursive said as (select distinct on (w.defect_entry_id, w.earlier_entry_id)"
          + " w.operator_id, w.defect_entry_id, w.earlier_entry_id, w.same from defect_repeat w"
          + " where"
          + STANDS
          + " order by w.defect_entry_id, w.earlier_entry_id, w.ledger_seq desc),"
          + " chain as (select s.defect_entry_id as entry_id, s.earlier_entry_id from said s"
          + " where s.same and s.defect_entry_id = any(:ids)"
          + " union select c.entry_id, s.earlier_entry_id from chain c"
          + " join said s on s.defect_entry_id = c.earlier_entry_id and s.same)"
          + " select entry_id, earlier_entry_id from chain where earlier_entry_id <> entry_id";

  @Inject EntityManager entities;

  /**
   * @param said a person's last word on the two, or null
   * @param componentId the part that the earlier one was of, or null
   */
  record Candidate(
      UUID entryId,
      UUID aircraftId,
      Instant at,
      UUID earlierId,
      UUID earlierAircraft,
      Instant earlierAt,
      int days,
      boolean sameComponent,
      boolean samePlace,
      Boolean said,
      UUID componentId) {}

  /** Earlier defects like these, whatever the time between, but for those that people ruled out. */
  List<Candidate> candidates(Collection<UUID> entryIds) {
    return entities
        .createNativeQuery(CANDIDATES, Object[].class)
        .setParameter("ids", entryIds.toArray(UUID[]::new))
        .getResultStream()
        .map(row -> candidate((Object[]) row))
        .toList();
  }

  /** Which earlier defects each is confirmed to be, come back; those of none are left out. */
  Map<UUID, Set<UUID>> confirmed(Collection<UUID> entryIds) {
    List<?> rows =
        entities
            .createNativeQuery(CONFIRMED, Object[].class)
            .setParameter("ids", entryIds.toArray(UUID[]::new))
            .getResultList();
    Map<UUID, Set<UUID>> earlier = new HashMap<>();
    for (Object row : rows) {
      Object[] pair = (Object[]) row;
      earlier.computeIfAbsent((UUID) pair[0], id -> new HashSet<>()).add((UUID) pair[1]);
    }
    return earlier;
  }

  private static Candidate candidate(Object[] row) {
    return new Candidate(
        (UUID) row[0],
        (UUID) row[1],
        (Instant) row[2],
        (UUID) row[3],
        (UUID) row[4],
        (Instant) row[5],
        (Integer) row[6],
        (Boolean) row[7],
        (Boolean) row[8],
        (Boolean) row[9],
        (UUID) row[10]);
  }
}
