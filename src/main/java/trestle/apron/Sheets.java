package trestle.apron;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.PartKind;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.flights.UsageLine;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.reckoning.Amount;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.standing.AircraftStanding;
import trestle.standing.InWords;
import trestle.standing.Standings;
import trestle.web.Reading;
import trestle.web.Total;
import trestle.web.Viewer;

/** The sheet that is printed and carried. */
@ApplicationScoped
class Sheets {
  private static final int MOST_DUE = 14;

  @Inject PreFlights preFlights;
  @Inject Standings standings;
  @Inject UsageLines usage;
  @Inject ComponentLines components;
  @Inject InstantSource clock;

  @Reading
  public Sheet of(Viewer viewer, UUID aircraftId) {
    PreFlight shown = preFlights.shown(viewer, aircraftId);
    LocalDate today = viewer.dateOf(clock.instant());
    AircraftStanding standing = standings.now(viewer, List.of(aircraftId), today).get(aircraftId);
    List<DueNote> due = DueNotes.all(standing, Integer.MAX_VALUE);
    return new Sheet(
        shown,
        totals(viewer, shown.sheet(), View.asAt(today)),
        due.subList(0, Math.min(MOST_DUE, due.size())),
        Math.max(0, due.size() - MOST_DUE));
  }

  private List<Total> totals(Viewer viewer, AircraftSheet sheet, View view) {
    InWords words = new InWords(sheet.shownAs());
    UsageLine line = usage.of(viewer, sheet.id(), view);
    List<Total> totals = new ArrayList<>();
    totals.add(new Total("Time in service", total(line, Counter.HOURS, words)));
    totals.add(new Total("Landings", total(line, Counter.LANDINGS, words)));
    components.fittedTo(viewer, List.of(sheet.id()), view).values().stream()
        .filter(part -> part.history().fitted() != null)
        .filter(part -> part.history().fitted().kind() != PartKind.OTHER)
        .sorted(Comparator.comparing(part -> part.history().fitted().positionCode()))
        .forEach(part -> totals.add(total(part, words)));
    return totals;
  }

  /** Since overhaul; since new where it was never overhauled, or nobody knows when. */
  private static Total total(ComponentLine part, InWords words) {
    String name = part.history().fitted().positionLabel();
    String serial = "serial " + part.history().fitted().serial();
    long sinceOverhaul = part.sinceOverhaul(Counter.HOURS);
    long sinceNew = part.sinceNew(Counter.HOURS);
    return sinceOverhaul == Scale.UNKNOWN && sinceNew != Scale.UNKNOWN
        ? new Total(name + " since new", hours(sinceNew, words), serial)
        : new Total(name + " since overhaul", hours(sinceOverhaul, words), serial);
  }

  private static String hours(long seconds, InWords words) {
    return seconds == Scale.UNKNOWN
        ? "not known"
        : words.used(new Amount(seconds, Counter.HOURS.unit()));
  }

  private static String total(UsageLine line, Counter counter, InWords words) {
    return line.total().total(counter).map(words::used).orElse("not known");
  }
}
