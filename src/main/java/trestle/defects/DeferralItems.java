package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.flights.Flights;
import trestle.flights.UsageLine;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.programme.DueItems;
import trestle.standing.DueItem;
import trestle.standing.DueSource;
import trestle.web.Reading;
import trestle.web.Viewer;

/** Deferrals of open defects as what falls due: one that has run out holds its aircraft. */
@ApplicationScoped
public class DeferralItems implements DueSource {
  @Inject DeferralRepository repository;
  @Inject DefectRepository defects;
  @Inject DueItems programme;
  @Inject UsageLines usage;
  @Inject Flights flights;
  @Inject Fleet fleet;
  @Inject InstantSource clock;

  @Override
  @Reading
  public Map<UUID, List<DueItem>> dueItems(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<DueItem>> items = new HashMap<>();
    aircraftIds.forEach(id -> items.put(id, new ArrayList<>()));
    if (items.isEmpty()) {
      return items;
    }
    List<DeferralSheet> standing = standing(viewer, repository.open(items.keySet(), view), view);
    reckoned(viewer, standing, view)
        .values()
        .forEach(item -> items.get(item.subject().aircraftId()).add(item));
    return items;
  }

  /**
   * Deferrals with their extensions; what an engineer has put an end to is left out, and what was
   * decided before the report was raised to "must not fly".
   */
  List<DeferralSheet> standing(Viewer viewer, List<Deferral> rows, View view) {
    if (rows.isEmpty()) {
      return List.of();
    }
    Set<UUID> ids = rows.stream().map(row -> row.defectEntryId).collect(Collectors.toSet());
    Map<UUID, Long> ended = new HashMap<>(defects.raised(ids, view));
    repository
        .triages(ids, view)
        .forEach(row -> ended.merge(row.defectEntryId, row.ledgerSeq(), Math::max));
    Map<UUID, List<DeferralExtended>> extended =
        repository.extensions(ids, view).stream()
            .collect(Collectors.groupingBy(row -> row.defectEntryId));
    return rows.stream()
        .filter(row -> ended.getOrDefault(row.defectEntryId, 0L) < row.ledgerSeq())
        .map(
            row ->
                DeferralSheet.of(
                    row, extended.getOrDefault(row.defectEntryId, List.of()), viewer.zone()))
        .toList();
  }

  /**
   * What each deferral reckons to, by its id; in a number of statements that is the same for all.
   */
  Map<UUID, DueItem> reckoned(Viewer viewer, Collection<DeferralSheet> deferrals, View view) {
    Map<UUID, DueItem> items = new HashMap<>();
    if (deferrals.isEmpty()) {
      return items;
    }
    Facts facts = facts(viewer, deferrals, notBeyondToday(viewer, view));
    for (DeferralSheet deferral : deferrals) {
      Defect defect = facts.defects().get(deferral.defectEntryId());
      if (defect != null && facts.sheets().containsKey(deferral.aircraftId())) {
        items.put(deferral.id(), new DeferralReckoned(deferral, defect, facts).item());
      }
    }
    return items;
  }

  /**
   * @param takeOffs since the first of these deferrals' defects was found
   * @param others what else falls due on each aircraft; only where a deferral is due with it
   */
  record Facts(
      Viewer viewer,
      View view,
      Instant now,
      Map<UUID, Defect> defects,
      Map<UUID, AircraftSheet> sheets,
      Map<UUID, UsageLine> usage,
      Map<UUID, List<Instant>> takeOffs,
      Map<UUID, List<DueItem>> others) {

    /** Today in a deferral's time base; for another view than now's, its last day. */
    LocalDate today(DeferralSheet deferral) {
      return view.upTo().equals(viewer.dateOf(now)) ? deferral.dayOf(now) : view.upTo();
    }
  }

  /** A view of everything is reckoned as at now: what runs out later has not run out. */
  private View notBeyondToday(Viewer viewer, View view) {
    LocalDate today = viewer.dateOf(clock.instant());
    return view.upTo().isAfter(today) ? new View(today, view.knownTo()) : view;
  }

  private Facts facts(Viewer viewer, Collection<DeferralSheet> deferrals, View view) {
    Set<UUID> aircraft = new HashSet<>();
    Set<UUID> counted = new HashSet<>();
    Set<UUID> flown = new HashSet<>();
    Set<UUID> withOthers = new HashSet<>();
    Instant from = Instant.MAX;
    Set<UUID> entries = new HashSet<>();
    for (DeferralSheet one : deferrals) {
      aircraft.add(one.aircraftId());
      entries.add(one.defectEntryId());
      if (one.withRequirementId() != null) {
        withOthers.add(one.aircraftId());
      } else if (one.unit() != null && one.unit().byFlights()) {
        flown.add(one.aircraftId());
        Instant start = one.discoveredOn().atStartOfDay(one.base()).toInstant();
        from = start.isBefore(from) ? start : from;
      } else if (one.lastDay() == null) {
        counted.add(one.aircraftId());
      }
    }
    Map<UUID, Defect> found = new HashMap<>();
    defects.entries(entries, view).forEach(row -> found.put(row.entryId, row));
    return new Facts(
        viewer,
        view,
        clock.instant(),
        found,
        fleet.sheets(viewer, aircraft, view),
        counted.isEmpty() ? Map.of() : usage.of(viewer, counted, view),
        flown.isEmpty() ? Map.of() : flights.takeOffs(viewer, flown, from, view),
        withOthers.isEmpty() ? Map.of() : programme.dueItems(viewer, withOthers, view));
  }
}
