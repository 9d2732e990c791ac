package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import org.hibernate.Session;
import org.hibernate.query.NativeQuery;
import trestle.ledger.View;

/**
 * Set operations over all components. "Not in" and not "not exists", since of a list the database
 * does not know how long it is, and so it always looks each component up in it at once.
 */
@ApplicationScoped
class PartCountRepository {
  private static final String COUNTED =
      " c.operator_id = current_operator() and c.happened_on <= :upTo and c.ledger_seq <= :known"
          + " and c.component_id not in (select unnest(cast(:without as uuid[])))";

  private static final String SHAPE = "translate(c.serial, '123456789', '000000000') collate \"C\"";

  private static final String LENGTH = "length(cast(c.serial_number as text))";

  private static final String IN_ORDER =
      " order by c.part_number collate \"C\", c.serial collate \"C\", c.component_id";

  private static final String IS_WRITTEN =
      " and m.part_number = c.part_number and m.shape = " + SHAPE + " and m.length = " + LENGTH;

  /** So many of one question that walking along in order finds some of them at once. */
  private static final int MANY = 5_000;

  private static final String COUNTS =
      "with stretch as materialized (select * from unnest(cast(:keys as text[]),"
          + " cast(:firsts as bigint[]), cast(:lasts as bigint[]), cast(:whole as boolean[]))"
          + " with ordinality s(key, first, last, whole, i))"
          + " select s.i, c.part_number, '' as shape, 0 as length, min(c.serial_number) as number,"
          + " count(*) as many"
          + " from (select key, min(i) as i from stretch where whole group by key) s"
          + " join component c on c.part_key = s.key and c.serial_number is not null and"
          + COUNTED
          + " group by s.i, c.part_number"
          + " union all"
          + " select s.i, c.part_number, "
          + SHAPE
          + ", "
          + LENGTH
          + ", min(c.serial_number), count(*)"
          + " from stretch s join component c on c.part_key = s.key"
          + " and c.serial_number between s.first and s.last and"
          + COUNTED
          + " where not s.whole group by 1, 2, 3, 4";

  /** Where most are named by the index that has them in order, else by that of numbers. */
  private static final String SHOWN =
      "with named as materialized (select * from unnest(cast(:whose as uuid[]),"
          + " cast(:keys as text[]), cast(:firsts as bigint[]), cast(:lasts as bigint[]),"
          + " cast(:whole as boolean[]), cast(:partNumbers as text[]), cast(:shapes as text[]),"
          + " cast(:lengths as int[]))"
          + " n(whose, key, first, last, whole, part_number, shape, length)),"
          + " other as materialized (select * from unnest(cast(:othersWhose as uuid[]),"
          + " cast(:others as uuid[]), cast(:othersPart as text[]), cast(:othersSerial as text[]))"
          + " o(whose, component_id, part_number, serial))"
          + " select w.whose, c.component_id, c.part_number, c.serial"
          + " from unnest(cast(:windows as uuid[]), cast(:offsets as int[]), cast(:most as int[]),"
          + " cast(:inOrder as boolean[])) w(whose, past, most, in_order)"
          + " cross join lateral (select * from"
          + " (select c.* from (select distinct key, whole from named where whose = w.whose"
          + " and w.in_order) n"
          + " cross join lateral (select c.component_id, c.part_number, c.serial from component c"
          + " where c.part_key = n.key and c.serial_number is not null and"
          + COUNTED
          + " and (n.whole or exists (select 1 from named m where m.whose = w.whose"
          + " and m.key = n.key and c.serial_number between m.first and m.last"
          + IS_WRITTEN
          + "))"
          + IN_ORDER
          + " limit w.past + w.most) c"
          + " union all"
          + " select c.component_id, c.part_number, c.serial from (select distinct key, first, last"
          + " from named where whose = w.whose and not w.in_order) n join component c"
          + " on c.part_key = n.key and c.serial_number between n.first and n.last and"
          + COUNTED
          + " where exists (select 1 from named m where m.whose = w.whose and m.key = n.key"
          + " and m.first = n.first"
          + IS_WRITTEN
          + ")"
          + " union all"
          + " select component_id, part_number, serial from other where whose = w.whose) c"
          + IN_ORDER
          + " offset w.past limit w.most) c order by w.whose,"
          + " c.part_number collate \"C\", c.serial collate \"C\", c.component_id";

  private static final String OTHERS =
      "with found as (select id from component where operator_id = current_operator()"
          + " and part_key = any(:keys) and serial_number is null"
          + " union select id from component where operator_id = current_operator()"
          + " and component_id = any(:anew) and part_key = any(:keys))"
          + " select c.component_id, c.part_number, c.serial from component c"
          + " where c.operator_id = current_operator() and c.id in (select id from found)"
          + " and c.happened_on <= :upTo and c.ledger_seq <= :known"
          + " and not exists (select 1 from component n where n.operator_id = c.operator_id"
          + " and n.component_id = c.component_id and n.ledger_seq > c.ledger_seq"
          + " and n.ledger_seq <= :known and n.happened_on <= :upTo)";

  @Inject EntityManager entities;

  List<UUID> statedAnew() {
    return entities
        .unwrap(Session.class)
        .createNativeQuery(
            "select distinct component_id from component where operator_id = current_operator()"
                + " and stated_anew",
            UUID.class)
        .getResultList();
  }

  List<Named.Part> others(Collection<String> keys, Collection<UUID> anew, View view) {
    return query(OTHERS, view)
        .setParameter("keys", keys.toArray(String[]::new))
        .setParameter("anew", anew.toArray(UUID[]::new))
        .getResultStream()
        .map(row -> new Named.Part((UUID) row[0], (String) row[1], (String) row[2]))
        .toList();
  }

  /** A whole part number is counted once, whoever asks. */
  List<Alike> counts(List<Stretch> stretches, Collection<UUID> without, View view) {
    Map<String, List<Stretch>> whole = new HashMap<>();
    stretches.stream()
        .filter(Stretch::whole)
        .forEach(one -> whole.computeIfAbsent(one.partKey(), any -> new ArrayList<>()).add(one));
    List<Object[]> rows = stretches(query(COUNTS, view), stretches, without).getResultList();
    List<Alike> counts = new ArrayList<>();
    for (Object[] row : rows) {
      Stretch stretch = stretches.get(((Number) row[0]).intValue() - 1);
      for (Stretch one : stretch.whole() ? whole.get(stretch.partKey()) : List.of(stretch)) {
        counts.add(
            new Alike(
                one,
                (String) row[1],
                (String) row[2],
                ((Number) row[3]).intValue(),
                ((Number) row[4]).longValue(),
                ((Number) row[5]).intValue()));
      }
    }
    return counts;
  }

  Map<UUID, List<Named.Part>> shown(
      List<PartCounts.Window> windows, Collection<UUID> without, View view) {
    List<Alike> alike = windows.stream().flatMap(one -> one.alike().stream()).toList();
    NativeQuery<Object[]> query =
        stretches(query(SHOWN, view), alike.stream().map(Alike::stretch).toList(), without)
            .setParameter("partNumbers", strings(alike, Alike::partNumber))
            .setParameter("shapes", strings(alike, Alike::shape))
            .setParameter("lengths", alike.stream().map(Alike::length).toArray(Integer[]::new));
    others(query, windows);
    query
        .setParameter("whose", ids(alike, one -> one.stretch().whose()))
        .setParameter("windows", ids(windows, PartCounts.Window::whose))
        .setParameter(
            "offsets", windows.stream().map(PartCounts.Window::offset).toArray(Integer[]::new))
        .setParameter(
            "inOrder", windows.stream().map(PartCountRepository::inOrder).toArray(Boolean[]::new))
        .setParameter(
            "most", windows.stream().map(PartCounts.Window::most).toArray(Integer[]::new));
    Map<UUID, List<Named.Part>> shown = new HashMap<>();
    for (Object[] row : query.getResultList()) {
      shown
          .computeIfAbsent((UUID) row[0], any -> new ArrayList<>())
          .add(new Named.Part((UUID) row[1], (String) row[2], (String) row[3]));
    }
    return shown;
  }

  private static boolean inOrder(PartCounts.Window window) {
    return window.alike().stream().anyMatch(one -> one.stretch().whole())
        || window.alike().stream().mapToInt(Alike::many).sum() > MANY;
  }

  private static void others(NativeQuery<Object[]> query, List<PartCounts.Window> windows) {
    List<UUID> whose = new ArrayList<>();
    List<Named.Part> others = new ArrayList<>();
    for (PartCounts.Window window : windows) {
      window.others().forEach(any -> whose.add(window.whose()));
      others.addAll(window.others());
    }
    query
        .setParameter("othersWhose", whose.toArray(UUID[]::new))
        .setParameter("others", ids(others, Named.Part::id))
        .setParameter("othersPart", strings(others, Named.Part::partNumber))
        .setParameter("othersSerial", strings(others, Named.Part::serial));
  }

  private static NativeQuery<Object[]> stretches(
      NativeQuery<Object[]> query, List<Stretch> stretches, Collection<UUID> without) {
    return query
        .setParameter("keys", strings(stretches, Stretch::partKey))
        .setParameter("firsts", stretches.stream().map(Stretch::first).toArray(Long[]::new))
        .setParameter("lasts", stretches.stream().map(Stretch::last).toArray(Long[]::new))
        .setParameter("whole", stretches.stream().map(Stretch::whole).toArray(Boolean[]::new))
        .setParameter("without", without.toArray(UUID[]::new));
  }

  private NativeQuery<Object[]> query(String sql, View view) {
    return entities
        .unwrap(Session.class)
        .createNativeQuery(sql, Object[].class)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound());
  }

  private static <T> String[] strings(List<T> of, Function<T, String> text) {
    return of.stream().map(text).toArray(String[]::new);
  }

  private static <T> UUID[] ids(List<T> of, Function<T, UUID> id) {
    return of.stream().map(id).toArray(UUID[]::new);
  }
}
