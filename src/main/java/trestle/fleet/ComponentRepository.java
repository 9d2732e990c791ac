package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.View;

@ApplicationScoped
class ComponentRepository {
  private static final String NEWEST =
      "c.happenedOn <= :upTo and c.ledgerSeq <= :known and not exists (select 1 from ComponentRow n"
          + " where n.componentId = c.componentId and n.ledgerSeq > c.ledgerSeq"
          + " and n.ledgerSeq <= :known and n.happenedOn <= :upTo)";

  private static final String NEWEST_PART =
      "c.happenedOn <= :upTo and c.ledgerSeq <= :known and not exists (select 1 from PartRow n"
          + " where n.partId = c.partId and n.ledgerSeq > c.ledgerSeq"
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

  /** Read as values, not as entities: there may be very many. */
  List<ComponentSheet> withParts(Collection<String> keys, View view) {
    List<Object[]> rows =
        entities
            .createNativeQuery(
                "select component_id, kind, part_number, serial, description, manufacturer, owner"
                    + " from component c where happened_on <= :upTo and ledger_seq <= :known"
                    + " and regexp_replace(upper(part_number), '[^A-Z0-9]', '', 'g') = any(:keys)"
                    + " and not exists (select 1 from component n"
                    + " where n.component_id = c.component_id and n.ledger_seq > c.ledger_seq"
                    + " and n.ledger_seq <= :known and n.happened_on <= :upTo)"
                    + " order by part_number, serial, component_id",
                Object[].class)
            .setParameter("upTo", view.upTo())
            .setParameter("known", view.knownBound())
            .setParameter("keys", keys.toArray(String[]::new))
            .getResultList();
    return rows.stream()
        .map(
            row ->
                new ComponentSheet(
                    (UUID) row[0],
                    PartKind.parse((String) row[1]),
                    (String) row[2],
                    (String) row[3],
                    (String) row[4],
                    (String) row[5],
                    (String) row[6]))
        .toList();
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

  List<ComponentEvent> events(Collection<UUID> componentIds, View view) {
    return inView(
            "from ComponentEvent e where e.componentId in :ids and e.isVoid = false and "
                + current("ComponentEvent", "e")
                + " order by e.happenedAt, e.ledgerSeq",
            ComponentEvent.class,
            view)
        .setParameter("ids", componentIds)
        .getResultList();
  }

  List<ComponentMeterReading> meterReadings(Collection<UUID> componentIds, View view) {
    return inView(
            "from ComponentMeterReading m where m.componentId in :ids and m.isVoid = false and "
                + current("ComponentMeterReading", "m")
                + " order by m.happenedAt, m.ledgerSeq",
            ComponentMeterReading.class,
            view)
        .setParameter("ids", componentIds)
        .getResultList();
  }

  /**
   * Every fitment row that the view knows, corrected ones too, in the order of filing: of what was
   * ever put on these aircraft, and of what was ever put into that, however deep.
   */
  List<Fitment> fitmentsOnAircraft(Collection<UUID> aircraftIds, View view) {
    return fitments(
        "with recursive on_board (component_id) as (select component_id from fitment"
            + " where operator_id = current_operator() and aircraft_id = any(:ids)"
            + " union select f.component_id from fitment f join on_board o"
            + " on f.assembly_id = o.component_id where f.operator_id = current_operator())"
            // Two searches by index: an "or" of both would read every row of the operator.
            + ", found (id) as (select id from fitment"
            + " where operator_id = current_operator() and aircraft_id = any(:ids) union all"
            + " select f.id from on_board o join fitment f on f.assembly_id = o.component_id"
            + " where f.operator_id = current_operator())"
            + " select f.* from found join fitment f on f.id = found.id"
            + " where f.operator_id = current_operator()",
        aircraftIds,
        view);
  }

  /** What was ever put on these aircraft, or into that, however deep. */
  List<UUID> everOn(Collection<UUID> aircraftIds) {
    return entities
        .createNativeQuery(
            "with recursive on_board (component_id) as (select component_id from fitment"
                + " where operator_id = current_operator() and aircraft_id = any(:ids)"
                + " union select f.component_id from fitment f join on_board o"
                + " on f.assembly_id = o.component_id where f.operator_id = current_operator())"
                + " select component_id from on_board",
            UUID.class)
        .setParameter("ids", aircraftIds.toArray(UUID[]::new))
        .getResultList();
  }

  /** The rows of these components, and of everything they ever sat in, however deep. */
  List<Fitment> fitmentsOfComponents(Collection<UUID> componentIds, View view) {
    return fitments(
        "with recursive around (component_id) as (select unnest(cast(:ids as uuid[]))"
            + " union select f.assembly_id from fitment f join around a"
            + " on f.component_id = a.component_id"
            + " where f.operator_id = current_operator() and f.assembly_id is not null)"
            + " select f.* from fitment f where f.operator_id = current_operator()"
            + " and f.component_id in (select component_id from around)",
        componentIds,
        view);
  }

  /** The rows of what was ever put straight into these components, or onto these aircraft. */
  List<Fitment> fitmentsIn(Collection<UUID> holderIds, View view) {
    return fitments(
        "select f.* from fitment f where f.operator_id = current_operator()"
            + " and (f.assembly_id = any(:ids) or f.aircraft_id = any(:ids))",
        holderIds,
        view);
  }

  @SuppressWarnings("unchecked")
  private List<Fitment> fitments(String sql, Collection<UUID> ids, View view) {
    return ids.isEmpty()
        ? List.of()
        : entities
            .createNativeQuery(
                sql + " and f.ledger_seq <= :known order by f.ledger_seq", Fitment.class)
            .setParameter("ids", ids.toArray(UUID[]::new))
            .setParameter("known", view.knownBound())
            .getResultList();
  }

  /** What the view knows of each part, the newest row. */
  List<PartRow> parts(View view) {
    return inView("from PartRow c where " + NEWEST_PART, PartRow.class, view).getResultList();
  }

  List<PartRow> parts(Collection<String> partNumbers, View view) {
    return partNumbers.isEmpty()
        ? List.of()
        : inView(
                "from PartRow c where lower(c.partNumber) in :numbers and " + NEWEST_PART,
                PartRow.class,
                view)
            .setParameter(
                "numbers",
                partNumbers.stream().map(number -> number.toLowerCase(Locale.ROOT)).toList())
            .getResultList();
  }

  /** All rows of one part, the oldest first. */
  List<PartRow> partRows(UUID partId) {
    return entities
        .createQuery("from PartRow p where p.partId = :id order by p.ledgerSeq", PartRow.class)
        .setParameter("id", partId)
        .getResultList();
  }

  /** All rows of one component, the oldest first. */
  List<ComponentRow> componentRows(UUID componentId) {
    return entities
        .createQuery(
            "from ComponentRow c where c.componentId = :id order by c.ledgerSeq",
            ComponentRow.class)
        .setParameter("id", componentId)
        .getResultList();
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
