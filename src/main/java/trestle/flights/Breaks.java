package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.flights.UsageSteps.Change;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Where flights don't follow on from one another, and what people say of it. */
@ApplicationScoped
public class Breaks {
  @Inject FlightRepository repository;
  @Inject UsageRepository usage;
  @Inject UsageSteps steps;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** A person's word on a break. */
  public record Word(
      UUID id, boolean flown, String explanation, LocalDate on, Instant recordedAt, UUID by) {}

  /**
   * One break, with the flights that disagree.
   *
   * @param earlier null where a flight disagrees with itself
   * @param amount seconds of the gap, the overlap, or by how much the meter fell; null for a place
   * @param words what people said of a break of this size, the last first
   */
  public record Line(
      BreakKind kind, FlightSheet flight, FlightSheet earlier, Long amount, List<Word> words) {

    /** A person has still to say something. A change of place is shown, and no more. */
    public boolean isOpen() {
      return words.isEmpty() && kind != BreakKind.PLACE;
    }

    /** A gap that counts as flown: until a person says that it was not. */
    public boolean countsAsFlown() {
      return kind == BreakKind.GAP && (words.isEmpty() || words.get(0).flown());
    }
  }

  /**
   * What a person says of a break.
   *
   * @param amount of the break they saw
   * @param flown for a gap: whether it was flown; else without meaning
   */
  public record Explaining(
      UUID flightId,
      BreakKind kind,
      Long amount,
      boolean flown,
      String explanation,
      UUID formKey) {}

  /** The breaks of one aircraft in a view, the latest flight first. */
  @Reading
  public List<Line> of(Viewer viewer, UUID aircraftId, View view) {
    return of(viewer, List.of(aircraftId), view).getOrDefault(aircraftId, List.of());
  }

  /** The breaks of aircraft in a view; a constant number of statements. */
  @Reading
  public Map<UUID, List<Line>> of(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Line>> lines = new HashMap<>();
    if (aircraftIds.isEmpty()) {
      return lines;
    }
    for (Line line : lines(breaks(viewer, aircraftIds, view), view)) {
      lines.computeIfAbsent(line.flight().aircraftId(), id -> new ArrayList<>()).add(line);
    }
    return lines;
  }

  /**
   * Files a person's word on a break. A gap that was not flown no longer counts.
   *
   * @throws Stale when there is no such break of that size any more
   */
  @Filing
  public void explain(Viewer viewer, Explaining asked) {
    if (asked.explanation() == null || asked.explanation().isBlank()) {
      throw new Refusal("explanation", "Explanation is needed: say why the records differ.");
    }
    Flight flight =
        repository
            .row(Flight.class, asked.flightId())
            .orElseThrow(() -> new NotHere("There is no such flight here."));
    revisions.bump(viewer, flight.aircraftId);
    if (repository.ofForm(BreakExplanation.class, asked.formKey()).isPresent()) {
      return;
    }
    boolean stands =
        usage.breaks(List.of(flight.id())).stream()
            .anyMatch(
                each ->
                    each.kind() == asked.kind()
                        && java.util.Objects.equals(each.amount(), asked.amount()));
    if (!stands) {
      throw new Stale("The flights have changed: this break is no longer as it was shown.");
    }
    BreakExplanation row = new BreakExplanation();
    row.aircraftId = flight.aircraftId;
    row.flightId = flight.id();
    row.kind = asked.kind().word();
    row.amount = asked.amount();
    row.flown = asked.kind() != BreakKind.GAP || asked.flown();
    row.explanation = asked.explanation().strip();
    row.happened(clock.instant(), viewer.dateOf(clock.instant()));
    row.fromForm(asked.formKey());
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
    steps.change(
        viewer,
        new Change(
            flight.aircraftId, flight.happenedOn(), flight.happenedOn(), List.of(), List.of()));
  }

  private List<Break> breaks(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    if (view.knowsEverything()) {
      return usage.breaksOf(aircraftIds);
    }
    List<Break> breaks = new ArrayList<>();
    steps
        .asKnown(viewer, aircraftIds, view)
        .values()
        .forEach(sequence -> breaks.addAll(sequence.breaks()));
    return breaks;
  }

  /** Breaks with their flights and words, of flights in the view, the latest first. */
  List<Line> lines(List<Break> breaks, View view) {
    Set<UUID> ids = new HashSet<>();
    for (Break each : breaks) {
      ids.add(each.flightId());
      if (each.earlierId() != null) {
        ids.add(each.earlierId());
      }
    }
    Map<UUID, FlightSheet> flights = repository.sheets(ids);
    Map<FlightRepository.Explained, List<Word>> words = repository.words(ids, view);
    List<Line> lines = new ArrayList<>();
    for (Break each : breaks) {
      FlightSheet flight = flights.get(each.flightId());
      if (!flight.landedOn().isAfter(view.upTo())) {
        var explained =
            new FlightRepository.Explained(flight.entryId(), each.kind(), each.amount());
        lines.add(
            new Line(
                each.kind(),
                flight,
                flights.get(each.earlierId()),
                each.amount(),
                words.getOrDefault(explained, List.of())));
      }
    }
    lines.sort(
        Comparator.comparing((Line line) -> line.flight().flight().takeOff())
            .reversed()
            .thenComparing(Line::kind));
    return lines;
  }
}
