package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.hibernate.Session;
import org.hibernate.query.NativeQuery;
import org.hibernate.query.Query;
import trestle.ledger.View;

/** Searches among components, of which there may be hundreds of thousands: values, not entities. */
@ApplicationScoped
class ComponentSheetRepository {
  private static final String VALUES =
      "select c.component_id, c.kind, c.part_number, c.serial, c.description, c.manufacturer,"
          + " c.owner";

  private static final String NEWEST_OF =
      " from component c where c.operator_id = current_operator() and c.happened_on <= :upTo"
          + " and c.ledger_seq <= :known and not exists (select 1 from component n"
          + " where n.operator_id = c.operator_id and n.component_id = c.component_id"
          + " and n.ledger_seq > c.ledger_seq and n.ledger_seq <= :known"
          + " and n.happened_on <= :upTo)";

  private static final String PART = "select c.component_id, c.part_number, c.serial";

  /** By two searches of the index: what lies in a run, and what has no number. */
  private static final String RUNS =
      "with whom as (select * from unnest(cast(:keys as text[]), cast(:firsts as bigint[]),"
          + " cast(:lasts as bigint[])) w(key, first, last)),"
          + " found as (select c.id from whom w join component c"
          + " on c.operator_id = current_operator() and c.part_key = w.key"
          + " and c.serial_number between w.first and w.last"
          + " union select id from component where operator_id = current_operator()"
          + " and part_key = any(:keys) and serial_number is null) ";

  private static final String IN_ORDER = " order by c.part_number, c.serial, c.component_id";

  /** As in {@link ComponentSheet#words}. */
  private static final String SOUGHT =
      " and strpos(lower(c.description || ', part ' || c.part_number || ', serial ' || c.serial),"
          + " lower(:sought)) > 0";

  @Inject EntityManager entities;

  List<ComponentSheet> withParts(Collection<String> keys, View view) {
    return sheets(
        values(VALUES + NEWEST_OF + " and c.part_key = any(:keys)" + IN_ORDER, Object[].class, view)
            .setParameter("keys", keys.toArray(String[]::new)));
  }

  /** How many have these words among their own. */
  long count(String sought, View view) {
    return values("select count(*)" + NEWEST_OF + SOUGHT, Long.class, view)
        .setParameter("sought", sought)
        .getSingleResult();
  }

  List<ComponentSheet> sought(String sought, int offset, int most, View view) {
    return sheets(
        values(VALUES + NEWEST_OF + SOUGHT + IN_ORDER, Object[].class, view)
            .setParameter("sought", sought)
            .setFirstResult(offset)
            .setMaxResults(most));
  }

  private <T> NativeQuery<T> values(String sql, Class<T> type, View view) {
    return entities
        .unwrap(Session.class)
        .createNativeQuery(sql, type)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound());
  }

  private static List<ComponentSheet> sheets(Query<Object[]> query) {
    return query.getResultList().stream()
        .map(
            row ->
                new ComponentSheet(
                    (UUID) row[0],
                    PartKind.parse((String) row[1]),
                    (String) row[2],
                    (String) row[3],
                    (String) row[4],
                    (String) row[5],
                    row[6] == null ? "" : (String) row[6]))
        .toList();
  }

  /** As a few values of each, in no order: there may be hundreds of thousands. */
  List<Named.Part> named(List<Named> whom, View view) {
    Set<String> whole = new HashSet<>();
    whom.stream().filter(Named::isAnyNumber).forEach(one -> whole.add(one.partKey()));
    List<Named> runs = whom.stream().filter(one -> !whole.contains(one.partKey())).toList();
    List<Named.Part> parts = new ArrayList<>();
    if (!whole.isEmpty()) {
      add(
          parts,
          values(PART + NEWEST_OF + " and c.part_key = any(:keys)", Object[].class, view)
              .setParameter("keys", whole.toArray(String[]::new)));
    }
    if (!runs.isEmpty()) {
      add(
          parts,
          values(
                  RUNS + PART + NEWEST_OF + " and c.id in (select id from found)",
                  Object[].class,
                  view)
              .setParameter("keys", runs.stream().map(Named::partKey).toArray(String[]::new))
              .setParameter("firsts", runs.stream().map(Named::first).toArray(Long[]::new))
              .setParameter("lasts", runs.stream().map(Named::last).toArray(Long[]::new)));
    }
    return parts;
  }

  private static void add(List<Named.Part> parts, Query<Object[]> query) {
    for (Object[] row : query.getResultList()) {
      parts.add(new Named.Part((UUID) row[0], (String) row[1], (String) row[2]));
    }
  }
}
