package trestle.flights;

import static trestle.flights.FlightDraft.LONGEST;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IntSummaryStatistics;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.fleet.Fleet;
import trestle.fleet.UsageFollower;
import trestle.flights.LegRepository.Stretch;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.Viewer;

/**
 * Keeps the derived steps and breaks as the flights say: only around the days that a filing
 * touched, or of a whole aircraft again. Both give the same rows.
 */
@ApplicationScoped
class UsageSteps implements UsageFollower {
  /** Dates are the operator's; a day either side is more than any change of zone. */
  private static final Duration SLACK = Duration.ofDays(1);

  @Inject FlightRepository flights;
  @Inject LegRepository flown;
  @Inject UsageRepository usage;
  @Inject Fleet fleet;

  /**
   * What a filing changes in the flights of one aircraft.
   *
   * @param first the first day touched
   * @param last the last day touched
   * @param gone rows no longer current
   * @param come rows not yet in the table
   */
  record Change(UUID aircraftId, LocalDate first, LocalDate last, List<Leg> gone, List<Leg> come) {

    static Change of(UUID aircraftId, List<Leg> gone, List<Leg> come) {
      IntSummaryStatistics days =
          Stream.concat(gone.stream(), come.stream()).mapToInt(Leg::day).summaryStatistics();
      return new Change(
          aircraftId,
          LocalDate.ofEpochDay(days.getMin()),
          LocalDate.ofEpochDay(days.getMax()),
          gone,
          come);
    }
  }

  /**
   * Brings the derived rows up to a change that is about to be filed (or, with no rows gone or
   * come, up to what was filed about the flights of its days).
   *
   * @return the breaks at the flights that come
   */
  List<Break> change(Viewer viewer, Change change) {
    // A flight that landed on the first day took off at most the longest flight before it, and may
    // overlap one that took off as long before that.
    Instant touched =
        change.first().atStartOfDay(viewer.zone()).toInstant().minus(SLACK).minus(LONGEST);
    Instant end = change.last().plusDays(1).atStartOfDay(viewer.zone()).toInstant().plus(SLACK);
    flights.flush();
    Stretch wide = flown.widened(change.aircraftId(), new Stretch(touched.minus(LONGEST), end));
    Set<UUID> gone = ids(change.gone());
    List<Leg> legs = new ArrayList<>(flown.legs(change.aircraftId(), wide));
    legs.removeIf(leg -> gone.contains(leg.id()));
    legs.addAll(change.come());
    Sequence sequence =
        sequences(viewer, Map.of(change.aircraftId(), legs), View.EVERYTHING)
            .get(change.aircraftId());

    // Near its beginning the stretch does not hold enough of the past to tell; nothing changed
    // there.
    Set<UUID> entries = new HashSet<>();
    Set<UUID> rows = new HashSet<>(gone);
    for (Leg leg : legs) {
      if (leg.takeOff() >= touched.getEpochSecond()) {
        entries.add(leg.entryId());
        rows.add(leg.id());
      }
    }
    change.gone().forEach(leg -> entries.add(leg.entryId()));
    write(sequence, entries, rows);
    Set<UUID> come = ids(change.come());
    return sequence.breaks().stream().filter(each -> come.contains(each.flightId())).toList();
  }

  /** Reckons everything of an aircraft again from its flights. */
  @Filing
  @Override
  public void reckonAgain(Viewer viewer, UUID aircraftId) {
    List<UUID> one = List.of(aircraftId);
    flights.flush();
    List<Leg> legs = flown.legs(one, View.EVERYTHING);
    Sequence sequence =
        sequences(viewer, Map.of(aircraftId, legs), View.EVERYTHING).get(aircraftId);
    Set<UUID> entries = new HashSet<>();
    legs.forEach(leg -> entries.add(leg.entryId()));
    usage.stepsOf(aircraftId).forEach(step -> entries.add(step.entryId()));
    Set<UUID> rows = ids(legs);
    usage.breaksOf(one).forEach(each -> rows.add(each.flightId()));
    write(sequence, entries, rows);
  }

  List<Break> breaksAt(UUID flightId) {
    return usage.breaks(List.of(flightId));
  }

  /** The steps of aircraft in a view, reckoned from the flights themselves. */
  Map<UUID, Sequence> asKnown(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Leg>> legs = new HashMap<>();
    aircraftIds.forEach(id -> legs.put(id, new ArrayList<>()));
    flown.legs(aircraftIds, view).forEach(leg -> legs.get(leg.aircraftId()).add(leg));
    return sequences(viewer, legs, view);
  }

  private Map<UUID, Sequence> sequences(Viewer viewer, Map<UUID, List<Leg>> legs, View view) {
    // The readings of a day hold whatever was changed later, so days don't bound these.
    View known = new View(View.EVERYTHING.upTo(), view.knownTo());
    var rules = fleet.hoursRules(viewer, legs.keySet(), known);
    var changes = fleet.meterChanges(viewer, legs.keySet(), known);
    Map<UUID, Set<Sequence.NotFlown>> notFlown = new HashMap<>();
    for (Object[] row : flights.notFlown(legs.keySet(), view.knownBound())) {
      notFlown
          .computeIfAbsent((UUID) row[0], id -> new HashSet<>())
          .add(new Sequence.NotFlown((UUID) row[1], (Long) row[2]));
    }
    Map<UUID, Sequence> sequences = new HashMap<>();
    legs.forEach(
        (id, list) -> {
          if (rules.containsKey(id)) {
            sequences.put(
                id,
                new Sequence(
                    list,
                    changes.getOrDefault(id, List.of()),
                    rules.get(id),
                    notFlown.getOrDefault(id, Set.of())));
          }
        });
    return sequences;
  }

  /** Writes what differs, of these entries' steps and these flights' breaks, and no more. */
  private void write(Sequence sequence, Set<UUID> entries, Set<UUID> rows) {
    Set<Step> stand = new HashSet<>(usage.steps(entries));
    List<Step> steps = new ArrayList<>(sequence.steps());
    steps.removeIf(step -> !entries.contains(step.entryId()));
    Set<UUID> left = new HashSet<>(entries);
    steps.forEach(step -> left.remove(step.entryId()));
    usage.removeSteps(left);
    steps.removeIf(stand::contains);
    usage.putSteps(steps);

    Set<Break> standing = new HashSet<>(usage.breaks(rows));
    List<Break> breaks = new ArrayList<>(sequence.breaks());
    breaks.removeIf(each -> !rows.contains(each.flightId()));
    Set<String> kept = new HashSet<>();
    breaks.forEach(each -> kept.add(key(each)));
    usage.removeBreaks(standing.stream().filter(each -> !kept.contains(key(each))).toList());
    breaks.removeIf(standing::contains);
    usage.putBreaks(breaks);
  }

  private static String key(Break each) {
    return each.flightId() + each.kind().word();
  }

  private static Set<UUID> ids(List<Leg> legs) {
    Set<UUID> ids = new HashSet<>();
    legs.forEach(leg -> ids.add(leg.id()));
    return ids;
  }
}
