package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.Filed;
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

  /** All rows of these, in the order of filing. */
  List<ComponentRow> rows(Collection<UUID> componentIds) {
    return known("component", ComponentRow.class, componentIds, View.EVERYTHING);
  }

  /** The newest row of each in the view. */
  Collection<ComponentRow> components(Collection<UUID> componentIds, View view) {
    Map<UUID, ComponentRow> newest = new HashMap<>();
    for (ComponentRow row : known("component", ComponentRow.class, componentIds, view)) {
      if (!row.happenedOn().isAfter(view.upTo())) {
        newest.put(row.componentId, row);
      }
    }
    return newest.values();
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
    return stated("component_opening", ComponentOpening.class, componentIds, view);
  }

  List<ComponentOverhaul> overhauls(Collection<UUID> componentIds, View view) {
    return stated("component_overhaul", ComponentOverhaul.class, componentIds, view).stream()
        .filter(row -> !row.isVoid)
        .toList();
  }

  List<ComponentEvent> events(Collection<UUID> componentIds, View view) {
    return stated("component_event", ComponentEvent.class, componentIds, view).stream()
        .filter(row -> !row.isVoid)
        .toList();
  }

  List<ComponentMeterReading> meterReadings(Collection<UUID> componentIds, View view) {
    return stated("component_meter_reading", ComponentMeterReading.class, componentIds, view)
        .stream()
        .filter(row -> !row.isVoid)
        .toList();
  }

  /** What was stated of these components and not corrected, void ones too, the oldest first. */
  private <T extends Filed> List<T> stated(
      String table, Class<T> type, Collection<UUID> ids, View view) {
    List<T> known = known(table, type, ids, view);
    Set<UUID> corrected = new HashSet<>();
    known.forEach(row -> corrected.add(row.corrects()));
    return known.stream()
        .filter(row -> !corrected.contains(row.id()) && !row.happenedOn().isAfter(view.upTo()))
        .sorted(Comparator.comparing(Filed::happenedAt).thenComparing(Filed::ledgerSeq))
        .toList();
  }

  /**
   * All that the view knows of these, in the order of filing, corrected rows too: a component has
   * few, and which of them stand is told sooner here than by a join. The ids go as one array: a
   * list of hundreds would be planned anew each time.
   */
  @SuppressWarnings("unchecked")
  private <T> List<T> known(String table, Class<T> type, Collection<UUID> ids, View view) {
    return ids.isEmpty()
        ? List.of()
        : entities
            .createNativeQuery(
                "select o.* from "
                    + table
                    + " o where o.component_id = any(:ids) and o.ledger_seq <= :known"
                    + " order by o.ledger_seq",
                type)
            .setParameter("ids", ids.toArray(UUID[]::new))
            .setParameter("known", view.knownBound())
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

  @SuppressWarnings("unchecked")
  List<Removal> removals(Collection<UUID> fitmentIds, View view) {
    return fitmentIds.isEmpty()
        ? List.of()
        : entities
            .createNativeQuery(
                "select f.* from removal f where f.operator_id = current_operator()"
                    + " and f.fitment_id = any(:ids) and f.ledger_seq <= :known"
                    + " order by f.ledger_seq",
                Removal.class)
            .setParameter("ids", fitmentIds.toArray(UUID[]::new))
            .setParameter("known", view.knownBound())
            .getResultList();
  }

  private <T> TypedQuery<T> inView(String hql, Class<T> type, View view) {
    return entities
        .createQuery(hql, type)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound());
  }
}
