package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.FuelUnit;
import trestle.fleet.PartKind;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Fuel reconciled and oil followed: what should be in the tanks against what was read, and what
 * each engine uses. A reading that disagrees is filed all the same, with the person's word on it.
 */
@ApplicationScoped
public class FuelAndOil {
  /** How many readings a page shows, and how far back the state is looked for. */
  static final int SHOWN = 30;

  @Inject FluidRepository readings;
  @Inject FlightRepository flights;
  @Inject UsageLines usage;
  @Inject ComponentLines components;
  @Inject Components parts;
  @Inject Fleet fleet;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** How an aircraft carries fuel and oil, stated or not. */
  @Reading
  public FluidArrangement arrangement(Viewer viewer, UUID aircraftId, View view) {
    AircraftSheet aircraft = fleet.sheet(viewer, aircraftId, view);
    FuelUnit unit = FuelUnit.parse(aircraft.particulars().fuelUnit());
    return readings
        .arrangement(aircraftId, view)
        .map(row -> row.stated(unit))
        .orElse(FluidArrangement.none(unit));
  }

  /**
   * States how an aircraft carries fuel and oil.
   *
   * @param stated names the revision it replaces
   * @throws Stale when somebody else has revised that one meanwhile
   */
  @Filing
  public void arrange(
      Viewer viewer, UUID aircraftId, FluidArrangement stated, String reason, UUID formKey) {
    revisions.bump(viewer, aircraftId);
    refuse(stated.faults());
    if (flights.ofForm(FluidArrangementRow.class, formKey).isPresent()) {
      return;
    }
    boolean first = readings.arrangement(aircraftId, View.EVERYTHING).isEmpty();
    boolean stale = stated.isStated() ? readings.isRevised(stated.revisionId()) : !first;
    if (stale) {
      throw new Stale("Someone has revised this since you opened this form.");
    }
    FluidArrangementRow row = FluidArrangementRow.of(aircraftId, stated);
    row.happened(clock.instant(), viewer.dateOf(clock.instant()));
    row.because(reason);
    row.fromForm(formKey);
    ledger.file(act(viewer), row);
  }

  /** Something about a reading that a person should look at once more before it is filed. */
  public record Question(String field, String sentence) {}

  /** What to ask about a reading not yet filed; empty when all of it agrees. */
  @Reading
  public List<Question> questions(
      Viewer viewer, UUID aircraftId, FlightDraft flight, FluidDraft draft) {
    FluidArrangement arrangement = arrangement(viewer, aircraftId, View.EVERYTHING);
    List<Question> questions = new ArrayList<>();
    if (!arrangement.isStated() || draft.isEmpty()) {
      return questions;
    }
    FluidWords words = new FluidWords(arrangement, labels(viewer, aircraftId));
    words.ask(fuel(viewer, aircraftId, arrangement, flight, draft), questions);
    oil(viewer, aircraftId, flight, draft)
        .forEach((position, use) -> words.ask(position, use, questions));
    return questions;
  }

  /**
   * Files what was found at the end of a flight; called with the flight, in its transaction.
   *
   * @throws Refusal when it is wrong in itself
   * @throws Stale when this form has filed something else already
   */
  @Filing
  public void file(
      Viewer viewer,
      UUID aircraftId,
      UUID entryId,
      FlightDraft flight,
      FluidDraft draft,
      UUID key) {
    FluidArrangement arrangement = arrangement(viewer, aircraftId, View.EVERYTHING);
    refuse(draft.faults(arrangement));
    FluidReading before = flights.ofForm(FluidReading.class, key).orElse(null);
    if (before != null) {
      if (!before.draft().equals(draft)) {
        throw new Stale("This form has filed other amounts of fuel or oil already.");
      }
      return;
    }
    FluidReading row =
        FluidReading.of(
            new FluidReading.Of(
                aircraftId,
                entryId,
                flight.landing(),
                viewer.dateOf(flight.landing()),
                arrangement.unit(),
                engines(viewer, aircraftId, flight.landing())),
            draft);
    row.fromForm(key);
    ledger.file(act(viewer), row);
  }

  /**
   * Replaces a reading by what it should have said. The original is kept, and shown.
   *
   * @throws Stale when it has been replaced already
   */
  @Filing
  public void correct(Viewer viewer, UUID readingId, FluidDraft draft, String reason, UUID key) {
    FluidReading original = reading(readingId);
    revisions.bump(viewer, original.aircraftId);
    refuse(draft.faults(arrangement(viewer, original.aircraftId, View.EVERYTHING)));
    if (flights.ofForm(FluidReading.class, key).isPresent()) {
      return;
    }
    if (flights.isCorrected(FluidReading.class, readingId)) {
      throw new Stale("Someone has corrected this reading since you opened this form.");
    }
    FluidReading row =
        FluidReading.of(
            new FluidReading.Of(
                original.aircraftId,
                original.flightEntryId,
                original.happenedAt(),
                original.happenedOn(),
                FuelUnit.parse(original.fuelUnit),
                engines(viewer, original.aircraftId, original.happenedAt())),
            draft);
    row.correct(readingId, reason);
    row.fromForm(key);
    ledger.file(act(viewer), row);
  }

  /** A reading as filed. */
  @Reading
  FluidReading reading(Viewer viewer, UUID readingId) {
    return reading(readingId);
  }

  private FluidReading reading(UUID readingId) {
    return flights
        .row(FluidReading.class, readingId)
        .orElseThrow(() -> new NotHere("There is no such reading here."));
  }

  /** What the latest readings leave in tanks and engines. */
  @Reading
  public FluidState state(Viewer viewer, UUID aircraftId, View view) {
    FluidArrangement arrangement = arrangement(viewer, aircraftId, view);
    return FluidState.of(
        arrangement, readings.latest(aircraftId, view, SHOWN), labels(viewer, aircraftId));
  }

  /** One reading with what was compared. */
  record Compared(FluidReading reading, List<FuelComparison> fuel) {}

  /** The latest readings of an aircraft with their comparisons, the latest first. */
  @Reading
  List<Compared> compared(Viewer viewer, UUID aircraftId, View view) {
    FluidArrangement arrangement = arrangement(viewer, aircraftId, view);
    UsageLine line = usage.of(viewer, aircraftId, view);
    List<FluidReading> latest = readings.latest(aircraftId, view, 2 * SHOWN);
    List<Compared> compared = new ArrayList<>();
    for (int i = 0; i < latest.size() && i < SHOWN; i++) {
      FluidReading reading = latest.get(i);
      compared.add(
          new Compared(
              reading,
              FuelComparison.of(
                  arrangement,
                  latest.subList(i + 1, latest.size()),
                  reading.draft(),
                  left -> line.gathered(Counter.HOURS, left, reading.happenedAt()))));
    }
    return compared;
  }

  /** What each engine now fitted used, by its position; wherever it was fitted. */
  @Reading
  Map<String, List<OilUse>> oilSeries(Viewer viewer, UUID aircraftId, View view) {
    Map<String, List<OilUse>> series = new TreeMap<>();
    Map<String, UUID> engines = engines(viewer, aircraftId, clock.instant());
    Map<UUID, ComponentLine> lines = components.of(viewer, engines.values(), view);
    List<FluidReading> rows = readings.ofEngines(engines.values(), view);
    engines.forEach(
        (position, engine) ->
            series.put(position, OilUse.series(levels(rows, engine, lines.get(engine)))));
    return series;
  }

  private List<FuelComparison> fuel(
      Viewer viewer,
      UUID aircraftId,
      FluidArrangement arrangement,
      FlightDraft flight,
      FluidDraft draft) {
    List<FluidReading> before =
        readings.latest(aircraftId, View.EVERYTHING, SHOWN).stream()
            .filter(reading -> !reading.happenedAt().isAfter(flight.takeOff()))
            .toList();
    UsageLine line = usage.of(viewer, aircraftId, View.EVERYTHING);
    return FuelComparison.of(
        arrangement,
        before,
        draft,
        left -> {
          long between = line.gathered(Counter.HOURS, left, flight.takeOff());
          return between == Scale.UNKNOWN ? between : between + seconds(flight);
        });
  }

  private SortedMap<String, OilUse> oil(
      Viewer viewer, UUID aircraftId, FlightDraft flight, FluidDraft draft) {
    Map<String, UUID> engines = engines(viewer, aircraftId, flight.landing());
    Map<UUID, ComponentLine> lines = components.of(viewer, engines.values(), View.EVERYTHING);
    List<FluidReading> rows =
        readings.ofEngines(engines.values(), View.EVERYTHING).stream()
            .filter(row -> !row.happenedAt().isAfter(flight.takeOff()))
            .toList();
    SortedMap<String, OilUse> uses = new TreeMap<>();
    engines.forEach(
        (position, engine) -> {
          List<OilUse.Level> levels = new ArrayList<>(levels(rows, engine, lines.get(engine)));
          long units = lines.get(engine).unitsAt(flight.takeOff(), Counter.HOURS);
          levels.add(
              level(
                  draft,
                  position,
                  flight.landing(),
                  units == Scale.UNKNOWN ? units : units + seconds(flight)));
          List<OilUse> series = OilUse.series(levels);
          uses.put(position, series.get(series.size() - 1));
        });
    return uses;
  }

  private static List<OilUse.Level> levels(
      List<FluidReading> rows, UUID engine, ComponentLine line) {
    List<OilUse.Level> levels = new ArrayList<>();
    for (FluidReading row : rows) {
      row.oilComponent.forEach(
          (position, component) -> {
            if (component.equals(engine.toString()) && says(row.draft(), position)) {
              levels.add(
                  level(
                      row.draft(),
                      position,
                      row.happenedAt(),
                      line.unitsAt(row.happenedAt(), Counter.HOURS)));
            }
          });
    }
    return levels;
  }

  private static boolean says(FluidDraft draft, String position) {
    return draft.oilBefore().containsKey(position)
        || draft.oilAdded().containsKey(position)
        || draft.oilChanged().contains(position);
  }

  private static OilUse.Level level(FluidDraft draft, String position, Instant at, long units) {
    return new OilUse.Level(
        at.getEpochSecond(),
        units,
        draft.oilBefore().get(position),
        draft.oilAdded().getOrDefault(position, BigDecimal.ZERO),
        draft.oilChanged().contains(position));
  }

  private Map<String, UUID> engines(Viewer viewer, UUID aircraftId, Instant at) {
    Map<String, UUID> engines = new TreeMap<>();
    for (Fitting fitting :
        parts
            .fittings(viewer, List.of(aircraftId), View.EVERYTHING)
            .getOrDefault(aircraftId, List.of())) {
      if (fitting.kind() == PartKind.ENGINE && fitting.holdsAt(at)) {
        engines.put(fitting.positionCode(), fitting.componentId());
      }
    }
    return engines;
  }

  private Map<String, String> labels(Viewer viewer, UUID aircraftId) {
    Map<String, String> labels = new HashMap<>();
    fleet
        .positions(viewer, aircraftId, View.EVERYTHING)
        .forEach(position -> labels.put(position.code(), position.label()));
    return labels;
  }

  private static long seconds(FlightDraft flight) {
    return flight.landing().getEpochSecond() - flight.takeOff().getEpochSecond();
  }

  private static void refuse(List<Refusal.Reason> faults) {
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
