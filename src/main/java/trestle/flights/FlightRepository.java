package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Revocable;
import trestle.ledger.View;
import trestle.reckoning.Counter;

/**
 * The filed rows of this room. Which flights count, one after the other, is in {@link
 * LegRepository}; what is derived from them in {@link UsageRepository}.
 */
@ApplicationScoped
class FlightRepository {
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
}
