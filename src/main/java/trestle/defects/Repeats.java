package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.defects.RepeatRepository.Candidate;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.flights.Flights;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.profiles.RuleProfiles;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * Defects that came back. Likely ones are suggested: of the same aircraft, or of the same part
 * wherever it is fitted now; of the same chapter with the same part or place; within so many days
 * or flights. Whether it is the same is for a person to say.
 */
@ApplicationScoped
public class Repeats {
  @Inject RepeatRepository repository;
  @Inject DefectRepository defects;
  @Inject DefectBook book;
  @Inject Flights flights;
  @Inject Components components;
  @Inject Fleet fleet;
  @Inject RuleProfiles profiles;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** How far back an earlier defect may be: either is enough. */
  private record Window(int days, int flights) {}

  /** The earlier occurrences of each defect, the latest first, suggested and confirmed ones. */
  @Reading
  public Map<UUID, List<Earlier>> of(Viewer viewer, Collection<UUID> defectEntryIds) {
    Map<UUID, List<Earlier>> earlier = new HashMap<>();
    if (defectEntryIds.isEmpty()) {
      return earlier;
    }
    List<Candidate> candidates = repository.candidates(defectEntryIds);
    Map<Candidate, Long> flown = flown(viewer, candidates);
    Map<UUID, Window> windows = windows(viewer, candidates);
    Map<Candidate, Candidate> near = new LinkedHashMap<>();
    candidates.stream()
        .filter(one -> isNear(one, flown.get(one), windows.get(one.aircraftId())))
        .forEach(one -> near.put(one, one));
    addConfirmed(candidates, near);
    Map<UUID, DefectBook.Entry> entries =
        book.entries(
            viewer, new LinkedHashSet<>(near.keySet().stream().map(Candidate::earlierId).toList()));
    Map<UUID, AircraftSheet> aircraft =
        fleet.sheets(
            viewer,
            near.keySet().stream().map(Candidate::earlierAircraft).toList(),
            View.EVERYTHING);
    for (Candidate one : candidates) {
      Candidate through = near.get(one);
      if (through == null) {
        continue;
      }
      earlier
          .computeIfAbsent(one.entryId(), id -> new ArrayList<>())
          .add(
              earlier(
                  one,
                  entries.get(one.earlierId()),
                  aircraft.get(one.earlierAircraft()).registration(),
                  flown.get(one),
                  through == one ? "" : entries.get(through.earlierId()).current().no()));
    }
    return earlier;
  }

  /** What is too long ago by itself, but is what a nearer one was confirmed to be, come back. */
  private void addConfirmed(List<Candidate> candidates, Map<Candidate, Candidate> near) {
    if (near.isEmpty() || near.size() == candidates.size()) {
      return;
    }
    Map<UUID, Set<UUID>> before =
        repository.confirmed(near.keySet().stream().map(Candidate::earlierId).toList());
    List<Candidate> nearer = List.copyOf(near.keySet());
    for (Candidate one : candidates) {
      nearer.stream()
          .filter(each -> each.entryId().equals(one.entryId()))
          .filter(each -> before.getOrDefault(each.earlierId(), Set.of()).contains(one.earlierId()))
          .findFirst()
          .ifPresent(each -> near.putIfAbsent(one, each));
    }
  }

  /** How many earlier occurrences each defect seems to have; those without any are left out. */
  @Reading
  public Map<UUID, Integer> counts(Viewer viewer, Collection<UUID> defectEntryIds) {
    Map<UUID, Integer> counts = new HashMap<>();
    of(viewer, defectEntryIds).forEach((id, earlier) -> counts.put(id, earlier.size()));
    return counts;
  }

  /**
   * How many earlier defects each is, come back, as persons have confirmed, from one to the next;
   * those that are none are left out.
   */
  @Reading
  public Map<UUID, Integer> confirmed(Viewer viewer, Collection<UUID> defectEntryIds) {
    Map<UUID, Integer> counts = new HashMap<>();
    if (!defectEntryIds.isEmpty()) {
      repository.confirmed(defectEntryIds).forEach((id, earlier) -> counts.put(id, earlier.size()));
    }
    return counts;
  }

  /**
   * A person says that a defect is an earlier one come back, or that it is not.
   *
   * @param same false rules the suggestion out
   */
  @Filing
  public void say(
      Viewer viewer, UUID entryId, UUID earlierId, boolean same, String remark, UUID formKey) {
    if (defects.ofForm(DefectRepeat.class, formKey).isPresent()) {
      return;
    }
    Set<UUID> known = new LinkedHashSet<>();
    UUID aircraft = null;
    for (Defect row : defects.entries(List.of(entryId, earlierId), View.EVERYTHING)) {
      known.add(row.entryId);
      aircraft = row.entryId.equals(entryId) ? row.aircraftId : aircraft;
    }
    if (known.size() != 2) {
      throw new NotHere("There is no such defect here.");
    }
    if (remark.length() > 500) {
      throw new Refusal("remark", "Remark must be at most 500 characters.");
    }
    Instant now = clock.instant();
    DefectRepeat row = new DefectRepeat();
    row.aircraftId = aircraft;
    row.defectEntryId = entryId;
    row.earlierEntryId = earlierId;
    row.same = same;
    row.remark = remark.strip();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
  }

  private static boolean isNear(Candidate one, Long flown, Window window) {
    return one.said() != null
        || one.days() <= window.days()
        || flown != null && flown <= window.flights();
  }

  /** The flights in between: of the aircraft, or of the part on whatever it was fitted to. */
  private Map<Candidate, Long> flown(Viewer viewer, List<Candidate> candidates) {
    Map<UUID, List<Fitting>> fitted = fitted(viewer, candidates);
    List<Candidate> counted = new ArrayList<>();
    List<Flights.Between> stretches = new ArrayList<>();
    Map<Candidate, Long> flown = new HashMap<>();
    for (Candidate one : candidates) {
      List<Fitting> fittings = fitted.getOrDefault(one.componentId(), List.of());
      if (one.sameComponent() && !fittings.isEmpty()) {
        flown.put(one, 0L);
        stretches.addAll(stretches(one, fittings));
      } else if (one.aircraftId().equals(one.earlierAircraft())) {
        stretches.add(new Flights.Between(one.aircraftId(), one.earlierAt(), one.at()));
      }
      while (counted.size() < stretches.size()) {
        counted.add(one);
      }
    }
    List<Long> counts = flights.between(viewer, stretches);
    for (int i = 0; i < counts.size(); i++) {
      flown.merge(counted.get(i), counts.get(i), Long::sum);
    }
    return flown;
  }

  /** Where a part was fitted between the two, each time on its aircraft. */
  private static List<Flights.Between> stretches(Candidate one, List<Fitting> fittings) {
    return fittings.stream()
        .filter(fitting -> fitting.from().isBefore(one.at()))
        .filter(fitting -> fitting.to() == null || fitting.to().isAfter(one.earlierAt()))
        .map(
            fitting ->
                new Flights.Between(
                    fitting.aircraftId(),
                    fitting.from().isAfter(one.earlierAt()) ? fitting.from() : one.earlierAt(),
                    fitting.to() == null || fitting.to().isAfter(one.at())
                        ? one.at()
                        : fitting.to()))
        .toList();
  }

  private Map<UUID, List<Fitting>> fitted(Viewer viewer, List<Candidate> candidates) {
    Set<UUID> parts = new LinkedHashSet<>();
    candidates.stream().filter(Candidate::sameComponent).forEach(o -> parts.add(o.componentId()));
    Map<UUID, List<Fitting>> fitted = new HashMap<>();
    components
        .histories(viewer, parts, View.EVERYTHING)
        .forEach((id, history) -> fitted.put(id, history.fittings()));
    return fitted;
  }

  private Map<UUID, Window> windows(Viewer viewer, List<Candidate> candidates) {
    Set<UUID> aircraft = new LinkedHashSet<>();
    candidates.forEach(one -> aircraft.add(one.aircraftId()));
    Map<UUID, Window> windows = new HashMap<>();
    if (!aircraft.isEmpty()) {
      profiles
          .ofAll(viewer, aircraft, View.EVERYTHING)
          .forEach(
              (id, rules) ->
                  windows.put(
                      id, new Window(rules.repeatWithinDays(), rules.repeatWithinFlights())));
    }
    return windows;
  }

  private static Earlier earlier(
      Candidate one, DefectBook.Entry entry, String registration, Long flown, String through) {
    return new Earlier(
        entry,
        registration,
        one.aircraftId().equals(one.earlierAircraft()),
        one.sameComponent(),
        one.samePlace(),
        one.days(),
        flown,
        Boolean.TRUE.equals(one.said()),
        through);
  }
}
