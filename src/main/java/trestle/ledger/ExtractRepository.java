package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;

/** Lines read as values, not as entities: there may be very many. */
@ApplicationScoped
class ExtractRepository {
  private static final String MARKS = "select seq, kind, record_id from ledger_entry e";

  @Inject EntityManager entities;

  List<Extracts.Mark> ofAircraft(UUID operatorId, UUID aircraftId, long size) {
    return marks(
        entities
            .createNativeQuery(
                MARKS
                    + " where operator_id = :operator and aircraft_id = :aircraft and seq <= :size"
                    + " order by seq",
                Object[].class)
            .setParameter("operator", operatorId)
            .setParameter("aircraft", aircraftId)
            .setParameter("size", size)
            .getResultList());
  }

  List<Extracts.Mark> naming(
      UUID operatorId,
      Collection<String> kinds,
      String field,
      Collection<String> values,
      long size) {
    return marks(
        entities
            .createNativeQuery(
                MARKS
                    + " where operator_id = :operator and kind = any(:kinds) and seq <= :size"
                    + " and cast(json as jsonb) ->> :field = any(:values) order by seq",
                Object[].class)
            .setParameter("operator", operatorId)
            .setParameter("kinds", kinds.toArray(String[]::new))
            .setParameter("field", field)
            .setParameter("values", values.toArray(String[]::new))
            .setParameter("size", size)
            .getResultList());
  }

  List<Line> at(UUID operatorId, Collection<Long> seqs) {
    return entities
        .createQuery(
            "select e.seq, e.recordedAt, e.recordedBy, e.aircraftId, e.kind, e.kindVersion,"
                + " e.recordId, e.json, e.leaf from LedgerEntry e"
                + " where e.operatorId = :operator and e.seq in :seqs order by e.seq",
            Line.class)
        .setParameter("operator", operatorId)
        .setParameter("seqs", seqs)
        .getResultList();
  }

  Set<UUID> known(UUID operatorId, String kind, Collection<UUID> recordIds) {
    List<UUID> found =
        entities
            .createNativeQuery(
                "select record_id from ledger_entry where operator_id = :operator"
                    + " and kind = :kind and record_id = any(:ids)",
                UUID.class)
            .setParameter("operator", operatorId)
            .setParameter("kind", kind)
            .setParameter("ids", recordIds.toArray(UUID[]::new))
            .getResultList();
    return new HashSet<>(found);
  }

  private static List<Extracts.Mark> marks(List<Object[]> rows) {
    return rows.stream()
        .map(
            row -> new Extracts.Mark(((Number) row[0]).longValue(), (String) row[1], (UUID) row[2]))
        .toList();
  }
}
