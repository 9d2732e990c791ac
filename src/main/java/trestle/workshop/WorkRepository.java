package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Revocable;
import trestle.ledger.View;

/** The filed rows of orders and their lines. */
@ApplicationScoped
class WorkRepository {
  /** The lines of the orders that are the parameter {@code ids}. */
  static final String LINES =
      "select l.entryId from WorkLine l where l.orderEntryId in :ids and l.corrects is null";

  @Inject EntityManager entities;

  static String known(String row) {
    return row + ".ledgerSeq <= :known and " + row + ".happenedOn <= :upTo";
  }

  /** What the view holds of a kind: as known then, and not corrected by then. */
  static String current(String kind, String row) {
    String later = row + "Later";
    return known(row)
        + (" and not exists (select 1 from " + kind + " " + later)
        + (" where " + later + ".corrects = " + row + ".id")
        + (" and " + later + ".ledgerSeq <= :known)");
  }

  <T extends Filed> Optional<T> row(Class<T> kind, UUID id) {
    return Optional.ofNullable(entities.find(kind, id));
  }

  /** The row that one form has filed already, if it has. */
  <T extends Filed> Optional<T> ofForm(Class<T> kind, UUID formKey) {
    return formKey == null
        ? Optional.empty()
        : entities
            .createQuery("from " + kind.getSimpleName() + " r where r.formKey = :key", kind)
            .setParameter("key", formKey)
            .getResultStream()
            .findFirst();
  }

  /** Lets nobody else of the operator do what has this name until the commit. */
  void lock(String name) {
    entities
        .createNativeQuery(
            "select pg_advisory_xact_lock(hashtextextended(current_operator() || :name, 0))",
            Object.class)
        .setParameter("name", " " + name)
        .getResultList();
  }

  int lastNumber(int year) {
    Integer last =
        entities
            .createQuery(
                "select max(o.number) from WorkOrder o where o.year = :year", Integer.class)
            .setParameter("year", year)
            .getSingleResult();
    return last == null ? 0 : last;
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

  List<WorkOrder> orders(Collection<UUID> entryIds, View view) {
    return inView(
            "from WorkOrder o where o.entryId in :ids and " + current("WorkOrder", "o"),
            WorkOrder.class,
            view)
        .setParameter("ids", entryIds)
        .getResultList();
  }

  /** Orders of one aircraft, or with null of all, the newest first. */
  List<WorkOrder> orders(UUID aircraftId, boolean openOnly, View view, int from, int count) {
    String which = aircraftId == null ? "" : "o.aircraftId = :aircraft and ";
    TypedQuery<WorkOrder> query =
        inView(
            "from WorkOrder o where "
                + which
                + current("WorkOrder", "o")
                + (openOnly ? " and " + open() : "")
                + " order by o.year desc, o.number desc",
            WorkOrder.class,
            view);
    if (aircraftId != null) {
      query.setParameter("aircraft", aircraftId);
    }
    return query.setFirstResult(from).setMaxResults(count).getResultList();
  }

  long count(UUID aircraftId) {
    String which = aircraftId == null ? "" : " and o.aircraftId = :aircraft";
    TypedQuery<Long> query =
        entities.createQuery(
            "select count(o) from WorkOrder o where o.corrects is null" + which, Long.class);
    return (aircraftId == null ? query : query.setParameter("aircraft", aircraftId))
        .getSingleResult();
  }

  /** Orders in work: started, and neither closed nor cancelled. */
  List<WorkOrder> inWork(Collection<UUID> aircraftIds, View view) {
    return inView(
            "from WorkOrder o where o.aircraftId in :ids and "
                + current("WorkOrder", "o")
                + " and exists (select 1 from WorkOrderStep t where t.orderEntryId = o.entryId"
                + " and t.step = 'started' and "
                + known("t")
                + ") and "
                + open()
                + " order by o.year, o.number",
            WorkOrder.class,
            view)
        .setParameter("ids", aircraftIds)
        .getResultList();
  }

  private static String open() {
    return "not exists (select 1 from WorkRelease r where r.orderEntryId = o.entryId and "
        + known("r")
        + ") and not exists (select 1 from WorkOrderStep s where s.orderEntryId = o.entryId"
        + " and s.step = 'cancelled' and "
        + known("s")
        + ")";
  }

  List<WorkOrderStep> steps(Collection<UUID> orders, View view) {
    return of(
        "from WorkOrderStep s where s.orderEntryId in :ids and " + known("s"),
        "s",
        WorkOrderStep.class,
        orders,
        view);
  }

  List<WorkLine> lines(Collection<UUID> orders, View view) {
    return inView(
            "from WorkLine l where l.orderEntryId in :ids and "
                + current("WorkLine", "l")
                + " and l.voided is null order by l.ordinal",
            WorkLine.class,
            view)
        .setParameter("ids", orders)
        .getResultList();
  }

  /** All rows that were filed of one line, taken off or not. */
  List<WorkLine> lineRows(UUID entryId) {
    return entities
        .createQuery("from WorkLine l where l.entryId = :id order by l.ledgerSeq", WorkLine.class)
        .setParameter("id", entryId)
        .getResultList();
  }

  /** The rows that count of some lines. */
  List<WorkLine> linesOf(Collection<UUID> entryIds) {
    return of(
        "from WorkLine l where l.entryId in :ids and " + current("WorkLine", "l"),
        "l",
        WorkLine.class,
        entryIds,
        View.EVERYTHING);
  }

  /** The order that a line is of. */
  UUID orderOf(UUID lineEntryId) {
    return row(WorkLine.class, lineEntryId).orElseThrow().orderEntryId;
  }

  int lastOrdinal(UUID order) {
    Integer last =
        entities
            .createQuery(
                "select max(l.ordinal) from WorkLine l where l.orderEntryId = :id", Integer.class)
            .setParameter("id", order)
            .getSingleResult();
    return last == null ? 0 : last;
  }

  /** All rows of work on the lines of these orders, those that were corrected too. */
  List<LineWork> works(Collection<UUID> orders, View view) {
    return of(
        "from LineWork w where w.lineEntryId in (" + LINES + ") and " + known("w"),
        "w",
        LineWork.class,
        orders,
        view);
  }

  List<LineInspection> inspections(Collection<UUID> orders, View view) {
    return of(
        "from LineInspection i where i.lineWorkId in (select w.id from LineWork w where"
            + " w.lineEntryId in ("
            + LINES
            + ")) and "
            + known("i")
            + " and "
            + Revocable.stands("LineInspection", "i"),
        "i",
        LineInspection.class,
        orders,
        view);
  }

  List<LineDeferral> deferrals(Collection<UUID> orders, View view) {
    return of(
        "from LineDeferral d where d.lineEntryId in ("
            + LINES
            + ") and "
            + known("d")
            + " and "
            + Revocable.stands("LineDeferral", "d"),
        "d",
        LineDeferral.class,
        orders,
        view);
  }

  List<PartUse> parts(Collection<UUID> orders, View view) {
    return of(
        "from PartUse p where p.lineEntryId in ("
            + LINES
            + ") and p.voided is null and "
            + current("PartUse", "p"),
        "p",
        PartUse.class,
        orders,
        view);
  }

  List<WorkRelease> releases(Collection<UUID> orders, View view) {
    return of(
        "from WorkRelease r where r.orderEntryId in :ids and " + known("r"),
        "r",
        WorkRelease.class,
        orders,
        view);
  }

  List<TaskList> taskLists(Collection<UUID> requirements) {
    return entities
        .createQuery(
            "from TaskList t where t.requirementId in :ids order by t.ledgerSeq", TaskList.class)
        .setParameter("ids", requirements)
        .getResultList();
  }

  <T> List<T> of(String query, String row, Class<T> type, Collection<UUID> ids, View view) {
    return ids.isEmpty()
        ? List.of()
        : inView(query + " order by " + row + ".ledgerSeq", type, view)
            .setParameter("ids", ids)
            .getResultList();
  }

  <T> TypedQuery<T> inView(String query, Class<T> type, View view) {
    return entities
        .createQuery(query, type)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo());
  }
}
