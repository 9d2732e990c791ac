package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.Query;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import trestle.formats.CanonicalJson;
import trestle.ledger.View;

/**
 * The flights that count, as the row in force says of each: read in bulk, without the rest of it.
 */
@ApplicationScoped
class LegRepository {
  /** In the view, not void, and not corrected by a row that the view knows. */
  private static final String CURRENT =
      " f.ledger_seq <= :known and f.happened_on <= :upTo and not f.void and not exists"
          + " (select 1 from flight r where r.operator_id = f.operator_id and r.corrects = f.id"
          + " and r.ledger_seq <= :known)";

  private static final String LEGS =
      "select f.id, f.entry_id, f.aircraft_id,"
          + " cast(extract(epoch from f.take_off_at) as bigint) as take_off,"
          + " cast(extract(epoch from f.landing_at) as bigint) as landing,"
          + " f.happened_on - date '1970-01-01' as day,"
          + " cast(extract(epoch from f.off_blocks_at) as bigint) as off_blocks,"
          + " cast(extract(epoch from f.on_blocks_at) as bigint) as on_blocks,"
          + " f.meter_out, f.meter_in, f.landings, f.cycles,"
          + " cast(nullif(f.other_amounts, cast('{}' as jsonb)) as text) as others,"
          + " f.from_place, f.to_place from flight f where f.aircraft_id = any(:ids) and"
          + CURRENT;

  /** Of one aircraft, so that the index gives the nearest ones in their order without a sort. */
  private static final String TAKE_OFFS =
      "select f.take_off_at from flight f where f.aircraft_id = (cast(:ids as uuid[]))[1] and"
          + CURRENT;

  /** By landing, as a defect is found at the landing of the flight on which it showed. */
  private static final String COUNT_BETWEEN =
      "select (select count(*) from flight f where f.aircraft_id = s.id"
          + " and f.landing_at > s.after and f.landing_at <= s.up_to and f.take_off_at <= s.up_to"
          + " and not f.void and not exists (select 1 from flight r"
          + " where r.operator_id = f.operator_id and r.corrects = f.id))"
          + " from unnest(cast(:ids as uuid[]), cast(:after as timestamptz[]),"
          + " cast(:upTo as timestamptz[])) with ordinality as s(id, after, up_to, place)"
          + " order by s.place";

  private static final String WIDEN =
      "select cast(floor(extract(epoch from least(cast(:from as timestamptz),"
          + " (select min(take_off_at) from ("
          + TAKE_OFFS
          + " and f.take_off_at < :from and f.meter_in is not null"
          + " order by f.take_off_at desc limit 3) metered),"
          + " (select min(take_off_at) from ("
          + TAKE_OFFS
          + " and f.take_off_at < :from order by f.take_off_at desc limit 2) before)))) as bigint),"
          + " cast(ceil(extract(epoch from greatest(cast(:to as timestamptz),"
          + " (select max(take_off_at) from ("
          + TAKE_OFFS
          + " and f.take_off_at > :to and f.meter_in is not null"
          + " order by f.take_off_at limit 3) metered),"
          + " (select max(take_off_at) from ("
          + TAKE_OFFS
          + " and f.take_off_at > :to order by f.take_off_at limit 2) after)))) as bigint)";

  /** That an aircraft took off. */
  record TakeOff(UUID aircraftId, Instant at) {}

  @Inject EntityManager entities;

  /** When the current flights of these aircraft took off, from a moment on, in order. */
  List<TakeOff> takeOffs(Collection<UUID> aircraftIds, Instant from, View view) {
    return entities
        .createQuery(
            "select f.aircraftId, f.takeOffAt from Flight f where f.aircraftId in :ids"
                + " and f.takeOffAt >= :from and f.isVoid = false and f.ledgerSeq <= :known"
                + " and f.happenedOn <= :upTo and not exists (select 1 from Flight r"
                + " where r.corrects = f.id and r.ledgerSeq <= :known) order by f.takeOffAt",
            TakeOff.class)
        .setParameter("ids", aircraftIds)
        .setParameter("from", from)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
        .getResultList();
  }

  /** All current flights of the aircraft in the view, as far as the sequence needs them. */
  List<Leg> legs(Collection<UUID> aircraftIds, View view) {
    return legs(inView(entities.createNativeQuery(LEGS, Object[].class), aircraftIds, view));
  }

  /** The current flights of one aircraft that took off in a stretch of time, ends included. */
  List<Leg> legs(UUID aircraftId, Stretch stretch) {
    Query query =
        entities
            .createNativeQuery(LEGS + " and f.take_off_at between :from and :to", Object[].class)
            .setParameter("from", stretch.from())
            .setParameter("to", stretch.to());
    return legs(inView(query, List.of(aircraftId), View.EVERYTHING));
  }

  /** A stretch of take-offs. */
  record Stretch(Instant from, Instant to) {}

  /**
   * Widens a stretch so that everything is in it on which its own flights depend (the two flights
   * with readings and the one flight before it) and everything that depends on them (likewise
   * after), with one to spare.
   */
  Stretch widened(UUID aircraftId, Stretch stretch) {
    Object[] bounds =
        (Object[])
            inView(
                    entities
                        .createNativeQuery(WIDEN, Object[].class)
                        .setParameter("from", stretch.from())
                        .setParameter("to", stretch.to()),
                    List.of(aircraftId),
                    View.EVERYTHING)
                .getSingleResult();
    return new Stretch(
        Instant.ofEpochSecond((Long) bounds[0]), Instant.ofEpochSecond((Long) bounds[1]));
  }

  List<Long> countBetween(List<Flights.Between> stretches) {
    return entities
        .createNativeQuery(COUNT_BETWEEN, Long.class)
        .setParameter(
            "ids", stretches.stream().map(Flights.Between::aircraftId).toArray(UUID[]::new))
        .setParameter(
            "after", stretches.stream().map(Flights.Between::after).toArray(Instant[]::new))
        .setParameter("upTo", stretches.stream().map(Flights.Between::upTo).toArray(Instant[]::new))
        .getResultList();
  }

  /** When the flight that landed last was filed, by aircraft. */
  Map<UUID, Instant> lastFiled(Collection<UUID> aircraftIds, View view) {
    Map<UUID, Instant> filed = new HashMap<>();
    List<?> rows =
        inView(
                entities.createNativeQuery(
                    "select a.id, l.filed from unnest(:ids) as a(id), lateral"
                        + " (select cast(floor(extract(epoch from f.recorded_at)) as bigint) as filed"
                        + " from flight f where f.aircraft_id = a.id"
                        // What landed by then took off before then, in every zone: as at a past
                        // day the search by index does not begin with all that came after.
                        + " and f.take_off_at < cast(least(cast(:upTo as date),"
                        + " date '9999-12-28') + 3 as timestamptz) and"
                        + CURRENT
                        + " order by f.take_off_at desc, f.landing_at desc limit 1) l",
                    Object[].class),
                aircraftIds,
                view)
            .getResultList();
    for (Object each : rows) {
      Object[] row = (Object[]) each;
      filed.put((UUID) row[0], Instant.ofEpochSecond((Long) row[1]));
    }
    return filed;
  }

  private static List<Leg> legs(Query query) {
    List<Leg> legs = new ArrayList<>();
    for (Object row : query.getResultList()) {
      legs.add(leg((Object[]) row));
    }
    return legs;
  }

  private static Leg leg(Object[] row) {
    return new Leg(
        (UUID) row[0],
        (UUID) row[1],
        (UUID) row[2],
        (Long) row[3],
        (Long) row[4],
        (Integer) row[5],
        (Long) row[6],
        (Long) row[7],
        (Long) row[8],
        (Long) row[9],
        (Integer) row[10],
        (Integer) row[11],
        row[12] == null ? Map.of() : Flight.others(texts((String) row[12])),
        (String) row[13],
        (String) row[14]);
  }

  private static Map<String, String> texts(String json) {
    Map<String, String> texts = new TreeMap<>();
    CanonicalJson.parse(json)
        .properties()
        .forEach(each -> texts.put(each.getKey(), each.getValue().asText()));
    return texts;
  }

  private static Query inView(Query query, Collection<UUID> aircraftIds, View view) {
    return query
        .setParameter("ids", aircraftIds.toArray(UUID[]::new))
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo());
  }
}
