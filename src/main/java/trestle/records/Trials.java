package trestle.records;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.Effects;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.flights.UsageLine;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.reckoning.Amount;
import trestle.reckoning.Counter;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Scale;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.standing.Reason;
import trestle.standing.Standings;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Tries a correction out: reckons without it and with it, and takes it back. */
@ApplicationScoped
class Trials implements Effects {
  private static final String NOTHING = "nothing";

  @Inject Resting resting;
  @Inject Histories histories;
  @Inject Standings standings;
  @Inject UsageLines usage;
  @Inject ComponentLines components;
  @Inject InstantSource clock;
  @Inject Trials self;

  /** An aircraft's figures in words, by what they are figures of. */
  record Figures(String registration, Map<String, String> values) {}

  /** Ends the transaction of a trial, so that nothing of it stays. */
  private static final class Over extends RuntimeException {
    private final transient Map<UUID, Figures> figures;

    private Over(Map<UUID, Figures> figures) {
      super(null, null, false, false);
      this.figures = figures;
    }
  }

  @Override
  public Told of(Viewer viewer, UUID recordId, Collection<UUID> aircraftIds, Runnable filing) {
    Set<UUID> aircraft = new LinkedHashSet<>(aircraftIds);
    List<Histories.Entry> later = resting.on(viewer, recordId, aircraft);
    UUID own = self.aircraftOf(viewer, recordId);
    if (own != null) {
      aircraft.add(own);
    }
    List<Rested> rested =
        later.stream()
            .limit(Resting.MOST)
            .map(
                entry ->
                    new Rested(
                        entry.kind() + (entry.says().isEmpty() ? "" : ": " + entry.says()),
                        entry.by(),
                        entry.at(),
                        entry.link()))
            .toList();
    boolean more = later.size() > rested.size();
    if (filing == null) {
      return new Told(false, "", List.of(), rested, more);
    }
    Map<UUID, Figures> before = self.now(viewer, aircraft);
    try {
      self.filed(viewer, aircraft, filing);
      throw new IllegalStateException("A trial never ends by itself");
    } catch (Over over) {
      return new Told(true, "", moves(before, over.figures), rested, more);
    } catch (Refusal refused) {
      return new Told(true, refused.reasons().get(0).sentence(), List.of(), rested, more);
    } catch (Stale stale) {
      return new Told(true, stale.getMessage(), List.of(), rested, more);
    }
  }

  @Reading
  UUID aircraftOf(Viewer viewer, UUID recordId) {
    return histories.line(viewer, recordId).aircraftId();
  }

  @Reading
  Map<UUID, Figures> now(Viewer viewer, Collection<UUID> aircraftIds) {
    return figures(viewer, aircraftIds);
  }

  /** Nothing of it is committed: it always throws. */
  @Filing
  void filed(Viewer viewer, Collection<UUID> aircraftIds, Runnable filing) {
    filing.run();
    throw new Over(figures(viewer, aircraftIds));
  }

  /** Not from memory: what a trial leads to must never be kept. */
  private Map<UUID, Figures> figures(Viewer viewer, Collection<UUID> aircraftIds) {
    Map<UUID, Figures> all = new LinkedHashMap<>();
    if (aircraftIds.isEmpty()) {
      return all;
    }
    Instant now = clock.instant();
    View view = View.asAt(viewer.dateOf(now));
    Map<UUID, UsageLine> totals = usage.of(viewer, aircraftIds, view);
    Map<UUID, List<ComponentLine>> fitted =
        components.fittedTo(viewer, aircraftIds, view).values().stream()
            .filter(line -> line.history().fitted() != null)
            .collect(Collectors.groupingBy(line -> line.history().fitted().aircraftId()));
    standings
        .asAt(viewer, aircraftIds, view)
        .forEach(
            (id, standing) ->
                all.put(id, figures(standing, totals.get(id), fitted.getOrDefault(id, List.of()))));
    return all;
  }

  private static Figures figures(
      AircraftStanding standing, UsageLine totals, List<ComponentLine> fitted) {
    InWords words = new InWords(standing.sheet().shownAs());
    Map<String, String> values = new LinkedHashMap<>();
    values.put("Standing", standing(standing));
    if (totals != null) {
      totals
          .total()
          .toMap()
          .forEach(
              (counter, units) ->
                  values.put(
                      "Total " + counter.name().replace('-', ' '),
                      words.used(new Amount(units, counter.unit()))));
    }
    for (ComponentLine line : fitted) {
      values.put(
          line.history().sheet().words(),
          "since new "
              + hours(line.sinceNew(Counter.HOURS), words)
              + ", since overhaul "
              + hours(line.sinceOverhaul(Counter.HOURS), words));
    }
    for (DueItem item : standing.items()) {
      String subject = item.subject().isAircraft() ? "" : ", " + item.subject().words();
      values.merge(item.title() + subject, due(item, words), (one, other) -> one + "; " + other);
    }
    return new Figures(standing.sheet().registration(), values);
  }

  private static String standing(AircraftStanding standing) {
    String word = standing.standing().word().word();
    return standing.standing().isClear()
        ? word
        : word
            + ": "
            + standing.standing().reasons().stream()
                .map(Reason::sentence)
                .collect(Collectors.joining(" "));
  }

  private static String due(DueItem item, InWords words) {
    LimitReckoning limit = item.controlling();
    return limit == null
        ? item.state().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ')
        : "due " + words.due(limit) + ", " + words.left(limit) + " left";
  }

  private static String hours(long seconds, InWords words) {
    return seconds == Scale.UNKNOWN
        ? "not known"
        : words.used(new Amount(seconds, Counter.HOURS.unit()));
  }

  private static List<Move> moves(Map<UUID, Figures> before, Map<UUID, Figures> after) {
    List<Move> moves = new ArrayList<>();
    before.forEach(
        (id, figures) -> {
          Map<String, String> then = after.get(id).values();
          Set<String> all = new LinkedHashSet<>(figures.values().keySet());
          all.addAll(then.keySet());
          for (String what : all) {
            String was = figures.values().getOrDefault(what, NOTHING);
            String is = then.getOrDefault(what, NOTHING);
            if (!was.equals(is)) {
              moves.add(new Move(figures.registration(), what, was, is));
            }
          }
        });
    return moves;
  }
}
