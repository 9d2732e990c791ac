package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.PartSheet;
import trestle.fleet.Parts;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.ledger.View;
import trestle.reckoning.Calendar;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reading;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Scale;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.Force;
import trestle.standing.Standings;
import trestle.web.Viewer;

/** The countdowns of what is fitted: life limits, and overhauls after so much use or time. */
@ApplicationScoped
public class LifeLimits {
  private static final Set<String> KINDS =
      Set.of(RequirementKind.LIFE_LIMIT.word(), RequirementKind.OVERHAUL.word());

  @Inject Standings standings;
  @Inject ComponentLines lines;
  @Inject DueItems dueItems;
  @Inject Fleet fleet;
  @Inject Parts parts;
  @Inject RequirementRepository requirements;

  /** What binds whom: an operation for hire must keep what for others is advice. */
  public enum Binds {
    ALWAYS("binds every flight"),
    FOR_HIRE("binds flights for hire"),
    OTHERWISE("binds some flights"),
    RECOMMENDED("recommended");

    private final String words;

    Binds(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }

    static Binds of(DueItem item) {
      return of(item.isMandatory() ? Force.MANDATORY : Force.RECOMMENDED, item.forbids());
    }

    static Binds of(Force force, String forbids) {
      if (force == Force.RECOMMENDED) {
        return RECOMMENDED;
      }
      if (forbids.equals(DueItem.ANY_FLIGHT)) {
        return ALWAYS;
      }
      return forbids.equals("hire") ? FOR_HIRE : OTHERWISE;
    }
  }

  /**
   * One limit of a countdown.
   *
   * @param used what was used of it in its own unit (days by the calendar), or {@link
   *     Scale#UNKNOWN}
   * @param limit all there is of it, extended where it is, or {@link Scale#UNKNOWN}
   * @param controlling whether it is the one that will bite first
   */
  public record Countdown(LimitReckoning reckoned, long used, long limit, boolean controlling) {

    /** How much of it is used, 0 to 100; null where that is not known. */
    public Integer percent() {
      if (used == Scale.UNKNOWN || limit == Scale.UNKNOWN || limit <= 0) {
        return null;
      }
      return (int) Math.max(0, Math.min(100, used * 100 / limit));
    }
  }

  /**
   * One requirement on one component (or aircraft), with its limits.
   *
   * @param aircraft null for a component in store
   */
  public record Line(AircraftSheet aircraft, DueItem item, Binds binds, List<Countdown> limits) {}

  /** As at now, what bites first on top; a constant number of statements. */
  @trestle.web.Reading
  public List<Line> now(Viewer viewer, Collection<UUID> aircraftIds, LocalDate today) {
    return lines(viewer, standings.now(viewer, aircraftIds, today), View.asAt(today));
  }

  /** In any view. */
  @trestle.web.Reading
  public List<Line> asAt(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    return lines(viewer, standings.asAt(viewer, aircraftIds, view), view);
  }

  private List<Line> lines(Viewer viewer, Map<UUID, AircraftStanding> all, View view) {
    Map<UUID, ComponentLine> extended = extended(viewer, all.values(), view);
    List<Line> found = new ArrayList<>();
    for (AircraftStanding standing : all.values()) {
      for (DueItem item : standing.items()) {
        if (KINDS.contains(item.kind())) {
          found.add(
              new Line(
                  standing.sheet(),
                  item,
                  Binds.of(item),
                  countdowns(item, extended.get(item.subject().id()))));
        }
      }
    }
    found.sort((one, other) -> AircraftStanding.BITES_FIRST.compare(one.item(), other.item()));
    return found;
  }

  /** The countdowns of one component, fitted or in store. */
  @trestle.web.Reading
  public List<Line> of(Viewer viewer, UUID componentId, View view) {
    List<DueItem> items = dueItems.onComponent(viewer, componentId, view);
    ComponentLine line = lines.of(viewer, componentId, view);
    var fitted = line.history().fitted();
    AircraftSheet aircraft = fitted == null ? null : fleet.sheet(viewer, fitted.aircraftId(), view);
    return items.stream()
        .filter(item -> KINDS.contains(item.kind()))
        .sorted(AircraftStanding.BITES_FIRST)
        .map(item -> new Line(aircraft, item, Binds.of(item), countdowns(item, line)))
        .toList();
  }

  /** Part numbers that are said to be life-limited, of which no life limit is stated. */
  @trestle.web.Reading
  public List<PartSheet> unlimited(Viewer viewer, View view) {
    Map<String, PartSheet> limited = new TreeMap<>();
    for (PartSheet sheet : parts.sheets(viewer, view)) {
      if (sheet.lifeLimited()) {
        limited.put(sheet.partNumber().toLowerCase(Locale.ROOT), sheet);
      }
    }
    requirements
        .revisions(Set.of(), Set.of(), Set.of(), Set.copyOf(limited.keySet()), view)
        .stream()
        .filter(one -> one.revision().terms().kind() == RequirementKind.LIFE_LIMIT)
        .filter(one -> !one.revision().withdrawn())
        .forEach(one -> limited.remove(one.requirement().owner()));
    return List.copyOf(limited.values());
  }

  /** The lines of components one of whose countdowns was put off: from where it counted. */
  private Map<UUID, ComponentLine> extended(
      Viewer viewer, Collection<AircraftStanding> all, View view) {
    Set<UUID> ids = new HashSet<>();
    for (AircraftStanding standing : all) {
      for (DueItem item : standing.items()) {
        if (KINDS.contains(item.kind())
            && !item.extensions().isEmpty()
            && !item.subject().isAircraft()) {
          ids.add(item.subject().id());
        }
      }
    }
    return lines.of(viewer, ids, view);
  }

  private static List<Countdown> countdowns(DueItem item, ComponentLine line) {
    List<Countdown> all = new ArrayList<>();
    collect(item.reckoning(), item.controlling(), line, all);
    return all;
  }

  private static void collect(
      Reckoning group, LimitReckoning controlling, ComponentLine line, List<Countdown> into) {
    for (Outcome entry : group.entries()) {
      if (entry instanceof Reckoning inner) {
        collect(inner, controlling, line, into);
      } else {
        LimitReckoning limit = (LimitReckoning) entry;
        into.add(countdown(limit, limit.equals(controlling), line));
      }
    }
  }

  private static Countdown countdown(
      LimitReckoning reckoned, boolean controlling, ComponentLine line) {
    long origin = origin(reckoned, line);
    if (origin == Scale.UNKNOWN || reckoned.remaining() == Scale.UNKNOWN) {
      return new Countdown(reckoned, Scale.UNKNOWN, Scale.UNKNOWN, controlling);
    }
    long limit = reckoned.due() - origin;
    return new Countdown(reckoned, limit - reckoned.remaining(), limit, controlling);
  }

  /** The point that it counts from, along the limit's scale. */
  private static long origin(LimitReckoning reckoned, ComponentLine line) {
    if (reckoned.due() == Scale.UNKNOWN) {
      return Scale.UNKNOWN;
    }
    if (reckoned.limit() instanceof Limit.Every every) {
      if (!reckoned.extended()) {
        return every.every() instanceof Interval period
            ? LocalDate.ofEpochDay(reckoned.due()).minusMonths(period.allMonths()).toEpochDay()
                - period.allDays()
            : every.every().before(reckoned.due());
      }
      Reading from = line == null ? null : line.origins().get(every.from());
      return from == null ? Scale.UNKNOWN : every.scale().pointOf(from);
    }
    boolean fixedTotal =
        reckoned.limit() instanceof Limit.Fixed fixed && fixed.scale() != Calendar.DAYS;
    return fixedTotal ? 0 : Scale.UNKNOWN;
  }
}
