package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.TypedQuery;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.ledger.View;

/** The filed rows of this room, but for pictures and what came back. */
@ApplicationScoped
class DefectRepository extends RowRepository {
  private static final String RECTIFIED =
      "exists (select 1 from Rectification c where c.defectEntryId = d.entryId and "
          + current("Rectification", "c")
          + " and c.voided is null)";

  private static final String INSPECTED =
      "exists (select 1 from EventInspection c where c.eventEntryId = d.entryId and "
          + current("EventInspection", "c")
          + " and c.voided is null)";

  /** What the view holds of a kind: as known then, and not corrected by then. */
  private static String current(String kind, String row) {
    String later = row + "Later";
    return (row + ".ledgerSeq <= :known and " + row + ".happenedOn <= :upTo")
        + (" and not exists (select 1 from " + kind + " " + later)
        + (" where " + later + ".corrects = " + row + ".id")
        + (" and " + later + ".ledgerSeq <= :known)");
  }

  /** All rows of these defects that are known in the view, in the order of filing. */
  List<Defect> entries(Collection<UUID> entryIds, View view) {
    return entities
        .createQuery(
            "from Defect d where d.entryId in :ids and d.ledgerSeq <= :known order by d.ledgerSeq",
            Defect.class)
        .setParameter("ids", entryIds)
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /**
   * At which line of the ledger a correction raised these defects to "must not fly", if one did.
   */
  Map<UUID, Long> raised(Collection<UUID> entryIds, View view) {
    return entities
        .createQuery(
            "from Defect d where d.entryId in :ids and d.ledgerSeq <= :known"
                + " and d.judgement = :raised and exists (select 1 from Defect o"
                + " where o.id = d.corrects and o.judgement <> :raised)",
            Defect.class)
        .setParameter("ids", entryIds)
        .setParameter("known", view.knownBound())
        .setParameter("raised", Judgement.MUST_NOT_FLY.word())
        .getResultStream()
        .collect(Collectors.toMap(row -> row.entryId, Defect::ledgerSeq, Math::max));
  }

  /** The current rows of defects that nobody has rectified, the first found first. */
  List<Defect> open(Collection<UUID> aircraftIds, View view) {
    return inView(
            "from Defect d where d.aircraftId in :ids and "
                + current("Defect", "d")
                + " and not "
                + RECTIFIED
                + " order by d.happenedAt, d.number",
            Defect.class,
            view)
        .setParameter("ids", aircraftIds)
        .getResultList();
  }

  /** The current rows of all defects of an aircraft, or with null of all; the newest first. */
  List<Defect> all(UUID aircraftId, boolean rectified, View view, int from, int count) {
    return ofAll(
            "",
            " order by d.happenedAt desc, d.number desc",
            Defect.class,
            aircraftId,
            rectified,
            view)
        .setFirstResult(from)
        .setMaxResults(count)
        .getResultList();
  }

  long count(UUID aircraftId, boolean rectified, View view) {
    return ofAll("select count(d) ", "", Long.class, aircraftId, rectified, view).getSingleResult();
  }

  private <T> TypedQuery<T> ofAll(
      String select, String order, Class<T> type, UUID aircraftId, boolean rectified, View view) {
    String which = aircraftId == null ? "" : "d.aircraftId = :aircraft and ";
    TypedQuery<T> query =
        inView(
            select
                + "from Defect d where "
                + which
                + current("Defect", "d")
                + (rectified ? " and " + RECTIFIED : "")
                + order,
            type,
            view);
    return aircraftId == null ? query : query.setParameter("aircraft", aircraftId);
  }

  /** The current rows of the defects that came with these journey log entries. */
  List<Defect> ofFlights(Collection<UUID> flightEntryIds, View view) {
    return inView(
            "from Defect d where d.flightEntryId in :ids and " + current("Defect", "d"),
            Defect.class,
            view)
        .setParameter("ids", flightEntryIds)
        .getResultList();
  }

  /** All rows that say what was done about these defects, in the order of filing. */
  List<Rectification> rectifications(Collection<UUID> defectEntryIds, View view) {
    return inView(
            "from Rectification r where r.defectEntryId in :ids and r.ledgerSeq <= :known"
                + " and r.happenedOn <= :upTo order by r.ledgerSeq",
            Rectification.class,
            view)
        .setParameter("ids", defectEntryIds)
        .getResultList();
  }

  /** What was last done about an aircraft's defects, by its own moment, the latest first. */
  List<Rectification> lastDone(UUID aircraftId, View view, int count) {
    return lastCertified(Rectification.class, aircraftId, view, count);
  }

  /** The inspections of an aircraft's events that were done last, the latest first. */
  List<EventInspection> lastInspections(UUID aircraftId, View view, int count) {
    return lastCertified(EventInspection.class, aircraftId, view, count);
  }

  private <T extends CertifiedRecord> List<T> lastCertified(
      Class<T> kind, UUID aircraftId, View view, int count) {
    return inView(
            "from "
                + kind.getSimpleName()
                + " c where c.aircraftId = :aircraft and c.voided is null and "
                + current(kind.getSimpleName(), "c")
                + " order by c.happenedAt desc, c.ledgerSeq desc",
            kind,
            view)
        .setParameter("aircraft", aircraftId)
        .setMaxResults(count)
        .getResultList();
  }

  List<AbnormalEventKind> eventKinds() {
    return entities
        .createQuery(
            "from AbnormalEventKind k where not exists (select 1 from AbnormalEventKind n"
                + " where n.code = k.code and n.ledgerSeq > k.ledgerSeq) order by k.name",
            AbnormalEventKind.class)
        .getResultList();
  }

  /** The current rows of events whose inspection nobody has certified. */
  List<AbnormalEvent> openEvents(Collection<UUID> aircraftIds, View view) {
    return inView(
            "from AbnormalEvent d where d.aircraftId in :ids and "
                + current("AbnormalEvent", "d")
                + " and d.voided is null and not "
                + INSPECTED
                + " order by d.happenedAt",
            AbnormalEvent.class,
            view)
        .setParameter("ids", aircraftIds)
        .getResultList();
  }

  List<AbnormalEvent> events(UUID aircraftId, View view) {
    return inView(
            "from AbnormalEvent d where d.aircraftId = :id and "
                + current("AbnormalEvent", "d")
                + " order by d.happenedAt desc",
            AbnormalEvent.class,
            view)
        .setParameter("id", aircraftId)
        .getResultList();
  }

  List<AbnormalEvent> eventRows(UUID entryId) {
    return entities
        .createQuery(
            "from AbnormalEvent e where e.entryId = :id order by e.ledgerSeq", AbnormalEvent.class)
        .setParameter("id", entryId)
        .getResultList();
  }

  /** All rows of what was certified on these events, in the order of filing. */
  List<EventInspection> inspections(Collection<UUID> eventEntryIds, View view) {
    return inView(
            "from EventInspection i where i.eventEntryId in :ids and i.ledgerSeq <= :known"
                + " and i.happenedOn <= :upTo order by i.ledgerSeq",
            EventInspection.class,
            view)
        .setParameter("ids", eventEntryIds)
        .getResultList();
  }

  List<SafetyOccurrence> occurrences(View view) {
    return inView(
            "from SafetyOccurrence o where "
                + current("SafetyOccurrence", "o")
                + " and o.voided is null"
                + " order by o.dueAt, o.ledgerSeq",
            SafetyOccurrence.class,
            view)
        .getResultList();
  }

  List<OccurrenceReport> occurrenceReports(View view) {
    return inView(
            "from OccurrenceReport r where "
                + current("OccurrenceReport", "r")
                + " and r.voided is null",
            OccurrenceReport.class,
            view)
        .getResultList();
  }

  /** The current rows of defects whose reporter said that an indication was not seen. */
  List<Defect> missedWarnings(View view) {
    return inView(
            "from Defect d where d.indicationMissed = true and "
                + current("Defect", "d")
                + " order by d.happenedAt",
            Defect.class,
            view)
        .getResultList();
  }

  private <T> TypedQuery<T> inView(String query, Class<T> type, View view) {
    return entities
        .createQuery(query, type)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo());
  }
}
