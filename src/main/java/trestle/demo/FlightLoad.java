package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import trestle.flights.Backlog;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.web.Viewer;

/** Turns planned flights into journey log entries: filed each evening by who flew last. */
@ApplicationScoped
class FlightLoad {
  private static final List<String> PILOTS = List.of("ness", "marlow");
  private static final List<String> REMARKS =
      List.of(
          "Light turbulence below 2,000 ft",
          "Held for traffic at Port Maddern",
          "Carried mail and two boxes of parts",
          "Windscreen cleaned",
          "Survey flight along the coast",
          "Training: circuits",
          "Patient transfer",
          "Waited for fog to lift");
  private static final int MISSING_SINCE_DAYS = 12;
  private static final int CORRECTED_SINCE_DAYS = 33;

  @Inject JourneyLog journeyLog;

  /** All filings of one aircraft's flights, day by day. */
  List<Event> events(AircraftStory story, Totals totals, UUID aircraftId, Cast cast) {
    PlannedFlight missing = totals.metered() ? lastWayHome(story.plan()) : null;
    PlannedFlight misread =
        story.registration().equals("QX-WIC")
            ? lastBefore(story.plan(), CORRECTED_SINCE_DAYS)
            : null;
    List<Event> events = new ArrayList<>();
    List<PlannedFlight> day = new ArrayList<>();
    List<PlannedFlight> flights = story.plan().flights();
    for (int i = 0; i < flights.size(); i++) {
      PlannedFlight flight = flights.get(i);
      if (flight != missing) {
        day.add(flight);
      }
      boolean dayEnds = i + 1 == flights.size() || flights.get(i + 1).day() > flight.day();
      if (dayEnds && !day.isEmpty()) {
        events.addAll(evening(List.copyOf(day), misread, totals, aircraftId, cast));
        day.clear();
      }
    }
    return events;
  }

  private List<Event> evening(
      List<PlannedFlight> day, PlannedFlight misread, Totals totals, UUID aircraft, Cast cast) {
    PlannedFlight last = day.get(day.size() - 1);
    Viewer pilot = cast.of(commander(last));
    Instant filedAt = last.landing().plus(Duration.ofMinutes(25));
    if (misread == null || !day.contains(misread)) {
      List<FlightDraft> drafts = day.stream().map(f -> draft(f, totals, cast)).toList();
      return List.of(new Event.Flown(new Backlog.Sheet(pilot, filedAt, aircraft, drafts)));
    }
    // One landing was read off the wrong line, ten minutes early, and put right two days later.
    List<FlightDraft> asFiled =
        day.stream().map(f -> draft(f == misread ? f.longerBy(-10) : f, totals, cast)).toList();
    FlightDraft right = draft(misread, totals, cast);
    List<UUID> filed = new ArrayList<>();
    return List.of(
        new Event.Filed(filedAt, () -> filed.addAll(journeyLog.fileAll(pilot, aircraft, asFiled))),
        new Event.Filed(
            filedAt.plus(Duration.ofHours(40)),
            () ->
                journeyLog.correct(
                    cast.of("quill"),
                    filed.get(day.indexOf(misread)),
                    right,
                    "Landing time was read from the wrong line of the flight sheet",
                    null)));
  }

  /** The newest flight home from elsewhere that is some days old: the one nobody filed. */
  private static PlannedFlight lastWayHome(FlightPlan plan) {
    String base = plan.flights().get(0).from();
    long before = plan.today().toEpochDay() - MISSING_SINCE_DAYS;
    return plan.flights().stream()
        .filter(f -> f.day() < before && f.to().equals(base) && !f.from().equals(base))
        .reduce((earlier, later) -> later)
        .orElseThrow();
  }

  private static PlannedFlight lastBefore(FlightPlan plan, int days) {
    long before = plan.today().toEpochDay() - days;
    return plan.flights().stream()
        .filter(flight -> flight.day() < before)
        .reduce((earlier, later) -> later)
        .orElseThrow();
  }

  static String commander(PlannedFlight flight) {
    return PILOTS.get((int) (flight.day() % 3 == 0 ? 1 : 0));
  }

  private static FlightDraft draft(PlannedFlight flight, Totals totals, Cast cast) {
    Long out = null;
    Long in = null;
    if (totals.metered()) {
      in = totals.secondsAt(flight.landing());
      out = in - totals.of(flight);
    }
    int turn = flight.turn();
    return new FlightDraft(
        flight.from(),
        flight.to(),
        flight.takeOff().minus(Duration.ofMinutes(6 + turn % 5)),
        flight.takeOff(),
        flight.landing(),
        flight.landing().plus(Duration.ofMinutes(4 + turn % 4)),
        out,
        in,
        flight.landings(),
        null,
        new TreeMap<>(),
        cast.of(commander(flight)).personName(),
        turn % 3 == 0 ? BigDecimal.valueOf(40 + turn % 90) : null,
        BigDecimal.valueOf(60 + turn % 120),
        oil(totals.engines(), turn),
        turn % 9 == 0 ? REMARKS.get(turn / 9 % REMARKS.size()) : "");
  }

  private static SortedMap<String, BigDecimal> oil(List<String> engines, int turn) {
    SortedMap<String, BigDecimal> oil = new TreeMap<>();
    if (turn % 7 == 0) {
      engines.forEach(engine -> oil.put(engine, BigDecimal.valueOf(0.5)));
    }
    return oil;
  }
}
