package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.ledger.History.Place;

@ApplicationScoped
class HistoryRepository {
  private static final String LINE =
      "select new trestle.ledger.Line(e.seq, e.recordedAt, e.recordedBy, e.aircraftId, e.kind,"
          + " e.kindVersion, e.recordId, e.json, e.leaf) from LedgerEntry e"
          + " where e.operatorId = :operator";

  @Inject EntityManager entities;

  private Map<String, String> tables;

  List<Line> before(UUID operatorId, UUID aircraftId, long before, int most) {
    String which = aircraftId == null ? "" : " and e.aircraftId = :aircraft";
    var query =
        entities
            .createQuery(LINE + which + " and e.seq < :before order by e.seq desc", Line.class)
            .setParameter("operator", operatorId)
            .setParameter("before", before)
            .setMaxResults(most);
    return (aircraftId == null ? query : query.setParameter("aircraft", aircraftId))
        .getResultList();
  }

  List<Line> after(
      UUID operatorId,
      Collection<UUID> aircraftIds,
      Collection<String> kinds,
      long after,
      int most) {
    return entities
        .createQuery(
            LINE
                + " and e.aircraftId in :aircraft and e.kind in :kinds and e.seq > :after"
                + " order by e.seq desc",
            Line.class)
        .setParameter("operator", operatorId)
        .setParameter("aircraft", aircraftIds)
        .setParameter("kinds", kinds)
        .setParameter("after", after)
        .setMaxResults(most)
        .getResultList();
  }

  /** By the key of a line's kind and record: ids are of one kind alone. */
  Optional<Line> ofRecord(UUID operatorId, UUID recordId) {
    return entities
        .createQuery(LINE + " and e.kind in :kinds and e.recordId = :record", Line.class)
        .setParameter("operator", operatorId)
        .setParameter("kinds", tables().keySet())
        .setParameter("record", recordId)
        .getResultStream()
        .findFirst();
  }

  /** In one statement over the tables of the kinds that are among these lines. */
  Map<UUID, Place> places(UUID operatorId, Collection<Line> lines, boolean earlier) {
    Map<String, List<UUID>> byKind =
        lines.stream()
            .collect(
                Collectors.groupingBy(
                    Line::kind,
                    TreeMap::new,
                    Collectors.mapping(Line::recordId, Collectors.toList())));
    if (byKind.isEmpty()) {
      return Map.of();
    }
    String one =
        earlier
            ? "select r.id, o.id as other, o.ledger_seq from %1$s r join %1$s o on o.operator_id = r.operator_id"
                + " and o.id = r.corrects where r.operator_id = :operator and r.id in :ids"
            : "select r.corrects, r.id as other, r.ledger_seq from %1$s r"
                + " where r.operator_id = :operator and r.corrects in :ids";
    String all =
        byKind.keySet().stream()
            .map(kind -> one.formatted(tables().get(kind)))
            .collect(Collectors.joining(" union all "));
    Map<UUID, Place> places = new HashMap<>();
    List<?> rows =
        entities
            .createNativeQuery(all)
            .setParameter("operator", operatorId)
            .setParameter("ids", lines.stream().map(Line::recordId).toList())
            .getResultList();
    for (Object row : rows) {
      Object[] columns = (Object[]) row;
      places.put(
          (UUID) columns[0], new Place((UUID) columns[1], ((Number) columns[2]).longValue()));
    }
    return places;
  }

  List<Line> versions(UUID operatorId, Line line) {
    String versions =
        ("with recursive back as (select id, corrects from %1$s where operator_id = :operator"
                + " and id = :record union all select t.id, t.corrects from %1$s t join back"
                + " on t.operator_id = :operator and t.id = back.corrects),"
                + " forth as (select id from back union select t.id from %1$s t join forth"
                + " on t.operator_id = :operator and t.corrects = forth.id)"
                + " select id from forth")
            .formatted(tables().get(line.kind()));
    List<?> ids =
        entities
            .createNativeQuery(versions)
            .setParameter("operator", operatorId)
            .setParameter("record", line.recordId())
            .getResultList();
    return entities
        .createQuery(LINE + " and e.kind = :kind and e.recordId in :ids order by e.seq", Line.class)
        .setParameter("operator", operatorId)
        .setParameter("kind", line.kind())
        .setParameter("ids", ids)
        .getResultList();
  }

  List<Line> signatures(UUID operatorId, Collection<Line> lines) {
    if (lines.isEmpty()) {
      return List.of();
    }
    List<?> ids =
        entities
            .createNativeQuery(
                "select id from signature where operator_id = :operator and signs_record in :ids")
            .setParameter("operator", operatorId)
            .setParameter("ids", lines.stream().map(Line::recordId).toList())
            .getResultList();
    return ids.isEmpty()
        ? List.of()
        : entities
            .createQuery(
                LINE + " and e.kind = 'signature' and e.recordId in :ids order by e.seq",
                Line.class)
            .setParameter("operator", operatorId)
            .setParameter("ids", ids)
            .getResultList();
  }

  Optional<Filed> row(String kind, UUID id) {
    return Optional.ofNullable(entities.find(type(kind), id));
  }

  boolean isCorrected(Filed row) {
    return entities
            .createQuery(
                "select count(r) from "
                    + row.getClass().getSimpleName()
                    + " r where r.corrects = :id",
                Long.class)
            .setParameter("id", row.id())
            .getSingleResult()
        > 0;
  }

  Optional<Filed> ofForm(String kind, UUID formKey) {
    return entities
        .createQuery(
            "from " + type(kind).getSimpleName() + " r where r.formKey = :key", Filed.class)
        .setParameter("key", formKey)
        .getResultStream()
        .findFirst();
  }

  UUID lastRevoking(Class<? extends Revocable> kind, String column, UUID value) {
    return entities
        .createQuery(
            "select r.id from "
                + kind.getSimpleName()
                + " r where r.voided = true and r."
                + column
                + " = :value order by r.ledgerSeq desc",
            UUID.class)
        .setParameter("value", value)
        .setMaxResults(1)
        .getResultStream()
        .findFirst()
        .orElse(null);
  }

  private Class<? extends Filed> type(String kind) {
    return entities.getMetamodel().getEntities().stream()
        .map(entity -> entity.getJavaType())
        .filter(Filed.class::isAssignableFrom)
        .filter(type -> type.getAnnotation(Kind.class).value().equals(kind))
        .<Class<? extends Filed>>map(type -> type.asSubclass(Filed.class))
        .findFirst()
        .orElseThrow();
  }

  /** The table of each kind. */
  private Map<String, String> tables() {
    if (tables == null) {
      Map<String, String> found = new HashMap<>();
      for (var entity : entities.getMetamodel().getEntities()) {
        Class<?> type = entity.getJavaType();
        if (Filed.class.isAssignableFrom(type)) {
          found.put(type.getAnnotation(Kind.class).value(), FiledJson.table(type));
        }
      }
      tables = found;
    }
    return tables;
  }
}
