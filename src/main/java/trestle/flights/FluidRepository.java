package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.View;

/** What was found of fuel and oil, and how aircraft carry them. */
@ApplicationScoped
class FluidRepository {
  /** Of a flight that is said never to have been. */
  private static final String VOID_FLIGHT =
      " and not exists (select 1 from flight f where f.operator_id = r.operator_id"
          + " and f.entry_id = r.flight_entry_id and f.void and f.ledger_seq <= :known"
          + " and not exists (select 1 from flight l where l.operator_id = f.operator_id"
          + " and l.corrects = f.id and l.ledger_seq <= :known))";

  private static final String CURRENT =
      " r.ledger_seq <= :known and r.happened_on <= :upTo and not r.void and not exists"
          + " (select 1 from fluid_reading c where c.operator_id = r.operator_id"
          + " and c.corrects = r.id and c.ledger_seq <= :known)"
          + VOID_FLIGHT;

  @Inject EntityManager entities;

  Optional<FluidArrangementRow> arrangement(UUID aircraftId, View view) {
    return entities
        .createQuery(
            "from FluidArrangementRow a where a.aircraftId = :id and a.ledgerSeq <= :known"
                + " and a.happenedOn <= :upTo order by a.ledgerSeq desc",
            FluidArrangementRow.class)
        .setParameter("id", aircraftId)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
        .setMaxResults(1)
        .getResultStream()
        .findFirst();
  }

  boolean isRevised(UUID arrangementId) {
    return entities
            .createQuery(
                "select count(a) from FluidArrangementRow a where a.revises = :id", Long.class)
            .setParameter("id", arrangementId)
            .getSingleResult()
        > 0;
  }

  /** The latest current readings of an aircraft, the latest first. */
  List<FluidReading> latest(UUID aircraftId, View view, int most) {
    return entities
        .createNativeQuery(
            "select r.* from fluid_reading r where r.aircraft_id = :id and"
                + CURRENT
                + " order by r.happened_at desc, r.ledger_seq desc",
            FluidReading.class)
        .setParameter("id", aircraftId)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
        .setMaxResults(most)
        .getResultList();
  }

  /** The current readings of these engines' oil wherever they were fitted, in order of time. */
  List<FluidReading> ofEngines(Collection<UUID> componentIds, View view) {
    return entities
        .createNativeQuery(
            "select r.* from fluid_reading r where exists (select 1 from"
                + " jsonb_each_text(r.oil_component) e where e.value = any(:ids)) and"
                + CURRENT
                + " order by r.happened_at, r.ledger_seq",
            FluidReading.class)
        .setParameter("ids", componentIds.stream().map(UUID::toString).toArray(String[]::new))
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
        .getResultList();
  }
}
