package trestle.overview;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.PartKind;
import trestle.flights.Breaks;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.flights.UsageLine;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.reckoning.Amount;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.standing.InWords;
import trestle.web.Shown;
import trestle.web.Total;
import trestle.web.Viewer;

/** What aircraft have run, put in words; read for many at once. */
@ApplicationScoped
class Strips {
  private static final int LATELY_DAYS = 30;

  @Inject Fleet fleet;
  @Inject UsageLines lines;
  @Inject ComponentLines components;
  @Inject Breaks breaks;

  Map<UUID, Strip> of(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, UsageLine> used = lines.of(viewer, aircraftIds, view);
    Map<UUID, List<ComponentLine>> fitted = fitted(viewer, aircraftIds, view);
    Map<UUID, List<Breaks.Line>> broken = breaks.of(viewer, aircraftIds, view);
    Map<UUID, Strip> strips = new HashMap<>();
    fleet
        .sheets(viewer, aircraftIds, view)
        .forEach(
            (id, sheet) ->
                strips.put(
                    id,
                    new Strip(
                        totals(viewer, sheet, used.get(id), fitted.get(id), view),
                        hoursTo(viewer, used.get(id)),
                        spread(viewer, used.get(id), view.upTo()),
                        open(broken.get(id)))));
    return strips;
  }

  private Map<UUID, List<ComponentLine>> fitted(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    return components.fittedTo(viewer, aircraftIds, view).values().stream()
        .filter(line -> line.history().fitted() != null)
        .sorted(Comparator.comparing(line -> line.history().fitted().positionCode()))
        .collect(Collectors.groupingBy(line -> line.history().fitted().aircraftId()));
  }

  private static int open(List<Breaks.Line> broken) {
    return broken == null ? 0 : (int) broken.stream().filter(Breaks.Line::isOpen).count();
  }

  private static List<Total> totals(
      Viewer viewer, AircraftSheet sheet, UsageLine line, List<ComponentLine> fitted, View view) {
    InWords words = new InWords(sheet.shownAs());
    List<Total> totals = new ArrayList<>();
    totals.add(new Total("Time in service", total(line, Counter.HOURS, words)));
    totals.add(new Total("Landings", total(line, Counter.LANDINGS, words)));
    if (fitted != null) {
      fitted.stream()
          .filter(part -> part.history().fitted().kind() != PartKind.OTHER)
          .forEach(part -> totals.add(total(part, words)));
    }
    totals.add(new Total("Flown, last 30 days", lately(viewer, line, view.upTo(), words)));
    return totals;
  }

  /** Since overhaul; since new where it was never overhauled, or nobody knows when. */
  private static Total total(ComponentLine part, InWords words) {
    String name = part.history().fitted().positionLabel();
    long sinceOverhaul = part.sinceOverhaul(Counter.HOURS);
    long sinceNew = part.sinceNew(Counter.HOURS);
    if (sinceOverhaul == Scale.UNKNOWN && sinceNew != Scale.UNKNOWN) {
      return new Total(name + " since new", hours(sinceNew, words));
    }
    return new Total(name + " since overhaul", hours(sinceOverhaul, words));
  }

  private static String hours(long seconds, InWords words) {
    return seconds == Scale.UNKNOWN
        ? "not known"
        : words.used(new Amount(seconds, Counter.HOURS.unit()));
  }

  private static String total(UsageLine line, Counter counter, InWords words) {
    return line.total().total(counter).map(words::used).orElse("not known");
  }

  private static String lately(Viewer viewer, UsageLine line, LocalDate day, InWords words) {
    Instant after = day.minusDays(LATELY_DAYS - 1).atStartOfDay(viewer.zone()).toInstant();
    Instant by = day.plusDays(1).atStartOfDay(viewer.zone()).toInstant();
    return hours(line.gathered(Counter.HOURS, after, by), words);
  }

  /** Of the whole weeks among the days whose mean is the rate, the last one ending today. */
  private static Spread spread(Viewer viewer, UsageLine line, LocalDate day) {
    Optional<LocalDate> first = line.firstDay();
    List<Double> weeks = new ArrayList<>();
    for (int ago = 0; ago < UsageLine.MEAN_OVER_DAYS / 7; ago++) {
      LocalDate last = day.minusWeeks(ago);
      if (first.isEmpty() || first.get().isAfter(last.minusDays(6))) {
        break;
      }
      long seconds =
          line.gathered(Counter.HOURS, endOf(viewer, last.minusWeeks(1)), endOf(viewer, last));
      weeks.add(seconds / 3600.0);
    }
    return Spread.of(weeks);
  }

  private static Instant endOf(Viewer viewer, LocalDate day) {
    return day.plusDays(1).atStartOfDay(viewer.zone()).toInstant();
  }

  /** How old the hours are. */
  private static String hoursTo(Viewer viewer, UsageLine line) {
    Optional<Instant> landing = line.lastLanding();
    if (landing.isEmpty()) {
      return "No flight is recorded yet";
    }
    String filed =
        line.lastFiledAt().map(at -> ", filed " + Shown.moment(at, viewer.zone())).orElse("");
    return "Hours to the landing of " + Shown.moment(landing.get(), viewer.flightZone()) + filed;
  }
}
