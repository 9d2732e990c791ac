package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.View;
import trestle.standing.Ground;
import trestle.standing.Grounds;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * What holds or limits an aircraft by this room's records: work that has begun and is not released
 * (14 CFR 91.407(a)), an inspection signed as not airworthy and not cleared since, a line that was
 * left open past its day, a check flight that is still to be made (91.407(b)), and the permit that
 * stands over a hold.
 */
@ApplicationScoped
class WorkshopGrounds implements Grounds {
  @Inject WorkRepository repository;
  @Inject ReleaseRepository closed;
  @Inject LinesLeftOpen leftOpen;

  @Override
  public Map<UUID, List<Ground>> grounds(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Ground>> grounds = new HashMap<>();
    if (aircraftIds.isEmpty()) {
      return grounds;
    }
    for (WorkOrder order : repository.inWork(aircraftIds, view)) {
      OrderSheet sheet = OrderSheet.of(order);
      add(
          grounds,
          sheet.aircraftId(),
          Ground.held(
              sheet.no() + ", " + sheet.title() + ": in work and not released.", sheet.link()));
    }
    List<LinesLeftOpen.Standing> open = leftOpen(viewer, aircraftIds, view);
    uncleared(aircraftIds, view, open)
        .forEach((id, all) -> all.forEach(one -> add(grounds, id, one)));
    open.forEach(one -> leftOpen(one, view).ifPresent(ground -> add(grounds, of(one), ground)));
    for (WorkRelease release : closed.uncheckedReleases(aircraftIds, view)) {
      add(
          grounds,
          release.aircraftId,
          Ground.limited(
              "Check flight to be made ("
                  + release.checkFlight
                  + "): no passengers until a pilot has logged it.",
              "/work-releases/" + release.id() + "/check-flight"));
    }
    for (FlightPermit row : closed.permits(aircraftIds, view)) {
      FlightPermits.Permit permit = FlightPermits.permit(row);
      if (permit.holdsOn(view.upTo())) {
        add(grounds, permit.aircraftId(), permitted(permit));
      }
    }
    return grounds;
  }

  private static Ground permitted(FlightPermits.Permit permit) {
    return Ground.permitted(
        "Special flight permit "
            + permit.number()
            + ", until "
            + Shown.date(permit.lastDay())
            + ", only: "
            + permit.conditions(),
        "/aircraft/" + permit.aircraftId() + "/flight-permits");
  }

  /** Inspections that found aircraft not airworthy, while something of their list is open. */
  Map<UUID, List<Ground>> uncleared(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    return uncleared(aircraftIds, view, leftOpen(viewer, aircraftIds, view));
  }

  private List<LinesLeftOpen.Standing> leftOpen(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    return leftOpen.standing(viewer, aircraftIds, view).values().stream()
        .flatMap(List::stream)
        .toList();
  }

  /** What is left open on somebody's authority until a day holds nothing up to that day. */
  private Map<UUID, List<Ground>> uncleared(
      Collection<UUID> aircraftIds, View view, List<LinesLeftOpen.Standing> leftOpen) {
    Map<UUID, List<Ground>> grounds = new HashMap<>();
    List<WorkRelease> found = closed.notAirworthy(aircraftIds, view);
    if (found.isEmpty()) {
      return grounds;
    }
    Set<String> settled = new HashSet<>();
    closed
        .settledDiscrepancies(aircraftIds, view)
        .forEach(line -> settled.add(line.fromRelease + " " + line.fromOrdinal));
    leftOpen.stream()
        .filter(one -> !isOverdue(one, view))
        .forEach(one -> settled.add(one.line().fromRelease() + " " + one.line().fromOrdinal()));
    for (WorkRelease release : found) {
      int open = 0;
      for (int i = 1; i <= release.discrepancies.length; i++) {
        open += settled.contains(release.id() + " " + i) ? 0 : 1;
      }
      if (open > 0) {
        add(
            grounds,
            release.aircraftId,
            Ground.held(
                "Found not airworthy on "
                    + Shown.date(release.happenedOn())
                    + ": "
                    + Shown.plural(open, "discrepancy", "discrepancies")
                    + " not put right.",
                "/work-orders/" + release.orderEntryId));
      }
    }
    return grounds;
  }

  private static boolean isOverdue(LinesLeftOpen.Standing one, View view) {
    return view.upTo().isAfter(one.leftOpen().lastDay());
  }

  /** Past its day it holds; until then whoever flies is told of a discrepancy. */
  private static Optional<Ground> leftOpen(LinesLeftOpen.Standing one, View view) {
    String until = "Left open until " + Shown.date(one.leftOpen().lastDay());
    if (isOverdue(one, view)) {
      return Optional.of(
          Ground.held(until + ", and not done: " + one.line().title() + ".", one.line().link()));
    }
    return one.line().fromRelease() == null
        ? Optional.empty()
        : Optional.of(
            Ground.limited(
                until
                    + " on the authority of "
                    + one.leftOpen().authority()
                    + ": "
                    + one.line().title()
                    + ".",
                one.line().link()));
  }

  private static UUID of(LinesLeftOpen.Standing one) {
    return one.line().aircraftId();
  }

  private static void add(Map<UUID, List<Ground>> grounds, UUID aircraftId, Ground ground) {
    grounds.computeIfAbsent(aircraftId, id -> new ArrayList<>()).add(ground);
  }
}
