package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import jakarta.persistence.TypedQuery;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Stream;
import org.hibernate.jpa.HibernateHints;
import trestle.ledger.MerkleSpans.Subtree;

@ApplicationScoped
class LedgerRepository {
  private static final int FETCHED = 500;
  private static final String LINES =
      "select new trestle.ledger.Line(e.seq, e.recordedAt, e.recordedBy, e.aircraftId, e.kind,"
          + " e.kindVersion, e.recordId, e.json, e.leaf)"
          + " from LedgerEntry e where e.operatorId = :operator and e.seq <= :upTo";
  private static final String ORDERED = " order by e.seq";

  @Inject EntityManager entities;

  /** Locks the operator's head row: from here to the commit no other transaction files there. */
  LedgerHead lockHead(UUID operatorId) {
    return entities.find(LedgerHead.class, operatorId, LockModeType.PESSIMISTIC_WRITE);
  }

  LedgerHead head(UUID operatorId) {
    return entities.find(LedgerHead.class, operatorId);
  }

  long lastSeqBefore(UUID operatorId, Instant moment) {
    return entities
        .createQuery(
            "select coalesce(max(e.seq), 0L) from LedgerEntry e"
                + " where e.operatorId = :operator and e.recordedAt < :moment",
            Long.class)
        .setParameter("operator", operatorId)
        .setParameter("moment", moment)
        .getSingleResult();
  }

  /** The series' row stays locked until the commit. */
  long nextNumber(UUID operatorId, String series) {
    return (Long)
        entities
            .createNativeQuery(
                "insert into numbering (operator_id, series, last) values (:operator, :series, 1)"
                    + " on conflict (operator_id, series) do update set last = numbering.last + 1"
                    + " returning last",
                Long.class)
            .setParameter("operator", operatorId)
            .setParameter("series", series)
            .getSingleResult();
  }

  void persist(Object row) {
    entities.persist(row);
  }

  /** The head as committed now, also when this session has read an older one. */
  LedgerHead freshHead(UUID operatorId) {
    LedgerHead head = head(operatorId);
    entities.refresh(head);
    return head;
  }

  /** An operator's keys that have a private half, the newest first. */
  List<KeyRing.Kept> keys(UUID operatorId) {
    return entities
        .createQuery(
            "select new trestle.ledger.KeyRing$Kept(k.id, k.publicKey, s.sealed) from LedgerKey k"
                + " join LedgerKeySeal s on s.operatorId = k.operatorId and s.keyId = k.id"
                + " where k.operatorId = :operator order by k.ledgerSeq desc",
            KeyRing.Kept.class)
        .setParameter("operator", operatorId)
        .getResultList();
  }

  boolean hasKey(UUID operatorId, String publicKey) {
    return entities
            .createQuery(
                "select count(k) from LedgerKey k"
                    + " where k.operatorId = :operator and k.publicKey = :key",
                Long.class)
            .setParameter("operator", operatorId)
            .setParameter("key", publicKey)
            .getSingleResult()
        > 0;
  }

  boolean isReadOnly() {
    return entities
        .createNativeQuery("select current_setting('transaction_read_only')", String.class)
        .getSingleResult()
        .equals("on");
  }

  /** Opens the walls of a transaction that the ledger opened itself. */
  void speakFor(Act act) {
    entities
        .createNativeQuery(
            "select set_config('trestle.operator', :operator, true),"
                + " set_config('trestle.person', :person, true)")
        .setParameter("operator", act.operatorId().toString())
        .setParameter("person", act.personId().toString())
        .getSingleResult();
  }

  Stream<Line> lines(UUID operatorId, long after, long upTo) {
    return streamed(
        entities
            .createQuery(LINES + " and e.seq > :after" + ORDERED, Line.class)
            .setParameter("operator", operatorId)
            .setParameter("after", after)
            .setParameter("upTo", upTo));
  }

  Stream<Line> linesOfAircraft(UUID operatorId, UUID aircraftId, long upTo) {
    return streamed(
        entities
            .createQuery(LINES + " and e.aircraftId = :aircraft" + ORDERED, Line.class)
            .setParameter("operator", operatorId)
            .setParameter("aircraft", aircraftId)
            .setParameter("upTo", upTo));
  }

  /** With the kinds named, the key of the lines answers without an index more. */
  Stream<Line> linesOfRecords(UUID operatorId, Collection<UUID> ids, long upTo) {
    return streamed(
        entities
            .createQuery(
                LINES + " and e.kind in (:kinds) and e.recordId in (:ids)" + ORDERED, Line.class)
            .setParameter("operator", operatorId)
            .setParameter("kinds", kinds())
            .setParameter("ids", ids)
            .setParameter("upTo", upTo));
  }

  private static Stream<Line> streamed(TypedQuery<Line> query) {
    return query.setHint(HibernateHints.HINT_FETCH_SIZE, FETCHED).getResultStream();
  }

  /** The words of all kinds that can be filed. */
  private List<String> kinds() {
    return entities.getMetamodel().getEntities().stream()
        .map(entity -> entity.getJavaType().getAnnotation(Kind.class))
        .filter(Objects::nonNull)
        .map(Kind::value)
        .toList();
  }

  List<LedgerSubtree> subtrees(UUID operatorId, List<Subtree> places) {
    return entities
        .createNativeQuery(
            "select s.* from unnest(cast(:levels as int[]), cast(:places as bigint[])) w(level, place)"
                + " join ledger_subtree s on s.operator_id = :operator"
                + " and s.level = w.level and s.place = w.place",
            LedgerSubtree.class)
        .setParameter("operator", operatorId)
        .setParameter("levels", places.stream().map(Subtree::level).toArray(Integer[]::new))
        .setParameter("places", places.stream().map(Subtree::place).toArray(Long[]::new))
        .getResultList();
  }

  /** Takes leaves with their sequence. */
  interface Leaves {
    void take(long seq, byte[] leaf);
  }

  /**
   * The leaves of several subtrees, given in order, one after another. Each by the key: joined
   * plainly, the planner takes every range for a ninth of the ledger and reads all of it.
   */
  void leaves(UUID operatorId, List<Subtree> subtrees, Leaves taker) {
    try (Stream<Object[]> rows =
        entities
            .createNativeQuery(
                "select e.seq, e.leaf from"
                    + " unnest(cast(:froms as bigint[]), cast(:tos as bigint[])) w(f, t)"
                    + " cross join lateral (select seq, leaf from ledger_entry"
                    + " where operator_id = :operator and seq > w.f and seq <= w.t"
                    + " order by seq limit w.t - w.f) e order by w.f, e.seq",
                Object[].class)
            .setParameter("operator", operatorId)
            .setParameter("froms", subtrees.stream().map(Subtree::from).toArray(Long[]::new))
            .setParameter("tos", subtrees.stream().map(Subtree::to).toArray(Long[]::new))
            .setHint(HibernateHints.HINT_FETCH_SIZE, FETCHED)
            .getResultStream()) {
      rows.forEach(row -> taker.take((Long) row[0], (byte[]) row[1]));
    }
  }
}
