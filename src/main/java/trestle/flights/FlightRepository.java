package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.Query;
import jakarta.persistence.TypedQuery;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import trestle.formats.CanonicalJson;
import trestle.ledger.Filed;
import trestle.ledger.Revocable;
import trestle.ledger.View;
import trestle.reckoning.Counter;

/** The filed rows of this room. What is derived from them is in {@link UsageRepository}. */
@ApplicationScoped
class FlightRepository {
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

  /** The last word on a break of one size of one entry; earlier words on it no longer count. */
  private static final String LATEST_WORD =
      "e.ledgerSeq <= :known and "
          + Revocable.stands("BreakExplanation", "e")
          + " and not exists (select 1 from BreakExplanation n, Flight g"
          + " where g.id = n.flightId and g.entryId = f.entryId and n.kind = e.kind"
          + " and (n.amount = e.amount or n.amount is null and e.amount is null)"
          + " and n.ledgerSeq > e.ledgerSeq and n.ledgerSeq <= :known and "
          + Revocable.stands("BreakExplanation", "n")
          + ")";

  /** That an aircraft took off. */
  record TakeOff(UUID aircraftId, Instant at) {}

  @Inject EntityManager entities;

  void flush() {
    entities.flush();
  }

  /** Has PostgreSQL look at the flights, after many were filed: it would read all for each. */
  void measure() {
    entities
        .createNativeQuery("select cast(measure_flights() as text)", String.class)
        .getSingleResult();
  }

  <T> Optional<T> row(Class<T> kind, UUID id) {
    return Optional.ofNullable(entities.find(kind, id));
  }

  /** The row that one form has filed already, if it has. */
  <T extends Filed> Optional<T> ofForm(Class<T> kind, UUID formKey) {
    if (formKey == null) {
      return Optional.empty();
    }
    return entities
        .createQuery("from " + kind.getSimpleName() + " r where r.formKey = :key", kind)
        .setParameter("key", formKey)
        .getResultStream()
        .findFirst();
  }

  List<UUID> aircraftReportedBy(UUID person, LocalDate since, int most) {
    return entities
        .createQuery(
            "select f.aircraftId from Flight f where f.recordedBy = :person"
                + " and f.happenedOn >= :since group by f.aircraftId order by max(f.ledgerSeq) desc",
            UUID.class)
        .setParameter("person", person)
        .setParameter("since", since)
        .setMaxResults(most)
        .getResultList();
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

  /** Every row of these entries that the view knows, in the order of filing. */
  List<Flight> entries(Collection<UUID> entryIds, View view) {
    return entities
        .createQuery(
            "from Flight f where f.entryId in :ids and f.ledgerSeq <= :known order by f.ledgerSeq",
            Flight.class)
        .setParameter("ids", entryIds)
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** The entries of an aircraft, void ones too, the latest take-off first. */
  List<UUID> entryIds(UUID aircraftId, View view, int from, int count) {
    return entriesInView(
            "select f.entryId ",
            " order by f.takeOffAt desc, f.ledgerSeq desc",
            UUID.class,
            aircraftId,
            view)
        .setFirstResult(from)
        .setMaxResults(count)
        .getResultList();
  }

  long countEntries(UUID aircraftId, View view) {
    return entriesInView("select count(f) ", "", Long.class, aircraftId, view).getSingleResult();
  }

  private <T> TypedQuery<T> entriesInView(
      String select, String order, Class<T> type, UUID aircraftId, View view) {
    return entities
        .createQuery(
            select
                + "from Flight f where f.aircraftId = :id and f.happenedOn <= :upTo"
                + " and f.ledgerSeq <= :known and not exists (select 1 from Flight r"
                + " where r.corrects = f.id and r.ledgerSeq <= :known)"
                + order,
            type)
        .setParameter("id", aircraftId)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound());
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

  Optional<Flight> lastOf(UUID aircraftId) {
    return entriesInView(
            "",
            " and f.isVoid = false order by f.takeOffAt desc, f.landingAt desc",
            Flight.class,
            aircraftId,
            View.EVERYTHING)
        .setMaxResults(1)
        .getResultStream()
        .findFirst();
  }

  Map<UUID, FlightSheet> sheets(Collection<UUID> ids) {
    Map<UUID, FlightSheet> sheets = new HashMap<>();
    if (!ids.isEmpty()) {
      entities
          .createQuery("from Flight f where f.id in :ids", Flight.class)
          .setParameter("ids", ids)
          .getResultList()
          .forEach(row -> sheets.put(row.id(), FlightSheet.of(row)));
    }
    return sheets;
  }

  /** What an explanation is about. */
  record Explained(UUID entryId, BreakKind kind, Long amount) {}

  /** What people said of the breaks at the entries of these rows, the last word first. */
  Map<Explained, List<Breaks.Word>> words(Collection<UUID> flightIds, View view) {
    Map<Explained, List<Breaks.Word>> words = new HashMap<>();
    if (flightIds.isEmpty()) {
      return words;
    }
    entities
        .createQuery(
            "select f.entryId, e from BreakExplanation e, Flight f where f.id = e.flightId"
                + " and f.entryId in (select g.entryId from Flight g where g.id in :ids)"
                + " and e.ledgerSeq <= :known and "
                + Revocable.stands("BreakExplanation", "e")
                + " order by e.ledgerSeq desc",
            Object[].class)
        .setParameter("ids", flightIds)
        .setParameter("known", view.knownBound())
        .getResultList()
        .forEach(
            row -> {
              BreakExplanation said = (BreakExplanation) row[1];
              words
                  .computeIfAbsent(
                      new Explained((UUID) row[0], BreakKind.parse(said.kind), said.amount),
                      each -> new ArrayList<>())
                  .add(
                      new Breaks.Word(
                          said.id(),
                          said.flown,
                          said.explanation,
                          said.happenedOn(),
                          said.recordedAt(),
                          said.recordedBy()));
            });
    return words;
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

  /** What explanations of the view say was not flown, by entry and size of the gap. */
  List<Object[]> notFlown(Collection<UUID> aircraftIds, long known) {
    return entities
        .createQuery(
            "select e.aircraftId, f.entryId, e.amount from BreakExplanation e, Flight f"
                + " where f.id = e.flightId and e.aircraftId in :ids and e.kind = 'gap'"
                + " and e.flown = false and "
                + LATEST_WORD,
            Object[].class)
        .setParameter("ids", aircraftIds)
        .setParameter("known", known)
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

  /** The rates that persons have stated and not taken back. */
  Map<UUID, Map<Counter, BigDecimal>> statedRates(Collection<UUID> aircraftIds, View view) {
    Map<UUID, Map<Counter, BigDecimal>> rates = new HashMap<>();
    entities
        .createQuery(
            "from StatedRate s where s.aircraftId in :ids and s.ledgerSeq <= :known"
                + " and s.happenedOn <= :upTo and "
                + Revocable.stands("StatedRate", "s")
                + " order by s.ledgerSeq",
            StatedRate.class)
        .setParameter("ids", aircraftIds)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
        .getResultList()
        .forEach(
            row ->
                rates
                    .computeIfAbsent(row.aircraftId, id -> new HashMap<>())
                    .put(new Counter(row.counter), row.perDay));
    return rates;
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
