package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.Revocable;
import trestle.ledger.View;

/** What stands of aircraft after their orders: releases, and what these left to be done. */
@ApplicationScoped
class ReleaseRepository {
  /**
   * The line has work that stands, and its order was closed. What was found besides is a line or a
   * defect of its own.
   */
  private static String settled(String n) {
    return "exists (select 1 from LineWork w where w.lineEntryId = "
        + n
        + ".entryId and w.voided is null and w.outcome <> 'not-applicable' and "
        + WorkRepository.current("LineWork", "w")
        + ") and exists (select 1 from WorkRelease r where r.orderEntryId = "
        + n
        + ".orderEntryId and "
        + WorkRepository.known("r")
        + ")";
  }

  /** A line by which what was put off on another is done. */
  private static String doneLater(String line) {
    return "exists (select 1 from WorkLine m where m.fromLine = "
        + line
        + " and m.origin = 'put-off' and m.voided is null and "
        + WorkRepository.current("WorkLine", "m")
        + " and "
        + settled("m")
        + ")";
  }

  @Inject WorkRepository rows;

  /** The latest of an aircraft, airworthy or not. */
  Optional<WorkRelease> lastRelease(UUID aircraftId, View view) {
    return rows.inView(
            "from WorkRelease r where r.aircraftId = :aircraft and "
                + WorkRepository.current("WorkRelease", "r")
                + " order by r.happenedAt desc, r.ledgerSeq desc",
            WorkRelease.class,
            view)
        .setParameter("aircraft", aircraftId)
        .setMaxResults(1)
        .getResultStream()
        .findFirst();
  }

  List<CheckFlight> checkFlights(Collection<UUID> releases, View view) {
    return rows.of(
        "from CheckFlight c where c.releaseId in :ids and "
            + WorkRepository.known("c")
            + " and "
            + Revocable.stands("CheckFlight", "c"),
        "c",
        CheckFlight.class,
        releases,
        view);
  }

  /** Releases of aircraft after which a check flight is still to be made. */
  List<WorkRelease> uncheckedReleases(Collection<UUID> aircraftIds, View view) {
    return rows.of(
        "from WorkRelease r where r.aircraftId in :ids and r.checkFlight <> '' and "
            + WorkRepository.known("r")
            + " and not exists (select 1 from CheckFlight c where c.releaseId = r.id"
            + " and c.satisfactory = true and "
            + WorkRepository.known("c")
            + " and "
            + Revocable.stands("CheckFlight", "c")
            + ")",
        "r",
        WorkRelease.class,
        aircraftIds,
        view);
  }

  /** What was found not airworthy on these aircraft, cleared since or not. */
  List<WorkRelease> notAirworthy(Collection<UUID> aircraftIds, View view) {
    return rows.of(
        "from WorkRelease r where r.aircraftId in :ids and r.airworthy = false and "
            + WorkRepository.known("r"),
        "r",
        WorkRelease.class,
        aircraftIds,
        view);
  }

  /** The lines by which discrepancies of aircraft were put right, in orders that are closed. */
  List<WorkLine> settledDiscrepancies(Collection<UUID> aircraftIds, View view) {
    return rows.of(
        "from WorkLine n where n.aircraftId in :ids and n.origin = 'discrepancy' and n.voided is"
            + " null and "
            + WorkRepository.current("WorkLine", "n")
            + " and ("
            + settled("n")
            + " or "
            + doneLater("n.entryId")
            + ")",
        "n",
        WorkLine.class,
        aircraftIds,
        view);
  }

  /** Lines of closed orders that were put off and not done since. */
  List<LineDeferral> putOff(Collection<UUID> aircraftIds, View view) {
    return rows.of(
        "from LineDeferral d where d.aircraftId in :ids and "
            + WorkRepository.known("d")
            + " and "
            + Revocable.stands("LineDeferral", "d")
            + " and exists (select 1 from WorkRelease c, WorkLine o where o.entryId = d.lineEntryId"
            + " and o.corrects is null and c.orderEntryId = o.orderEntryId and "
            + WorkRepository.known("c")
            + ") and not "
            + doneLater("d.lineEntryId"),
        "d",
        LineDeferral.class,
        aircraftIds,
        view);
  }

  List<FlightPermit> permits(Collection<UUID> aircraftIds, View view) {
    return rows.of(
        "from FlightPermit p where p.aircraftId in :ids and p.voided is null and "
            + WorkRepository.current("FlightPermit", "p"),
        "p",
        FlightPermit.class,
        aircraftIds,
        view);
  }
}
