package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/** Reading the journey log. */
@ApplicationScoped
public class Flights {
  public static final int PAGE = 40;

  @Inject FlightRepository repository;
  @Inject LegRepository flown;
  @Inject Fleet fleet;
  @Inject UsageLines usageLines;
  @Inject Breaks breaks;

  /**
   * An entry with all its rows.
   *
   * @param rows as filed, the first report first; the last is what counts
   * @param hours its time in service in seconds as the logbook takes it, without any gap before it;
   *     0 when void
   * @param totalHours the aircraft's total after its landing, in seconds, or UNKNOWN
   */
  public record Entry(
      List<FlightSheet> rows, long hours, long totalHours, List<Breaks.Line> breaks) {

    public FlightSheet current() {
      return rows.get(rows.size() - 1);
    }

    public boolean isDisputed() {
      return breaks.stream().anyMatch(each -> each.kind().disputes() && each.isOpen());
    }
  }

  /** One page of the log, the latest flight first; page numbers begin at one. */
  public record Page(List<Entry> entries, int number, int pages, long flights) {}

  @Reading
  public Page page(Viewer viewer, UUID aircraftId, View view, int number) {
    long count = repository.countEntries(aircraftId, view);
    int pages = (int) Math.max(1, (count + PAGE - 1) / PAGE);
    int at = Math.min(Math.max(1, number), pages);
    List<UUID> ids = repository.entryIds(aircraftId, view, (at - 1) * PAGE, PAGE);
    return new Page(entries(viewer, aircraftId, ids, view), at, pages, count);
  }

  /**
   * The entry of which a row is part, whether that row still counts or not.
   *
   * @throws NotHere when the operator has no such flight
   */
  @Reading
  public Entry entry(Viewer viewer, UUID rowId) {
    Flight row =
        repository
            .row(Flight.class, rowId)
            .orElseThrow(() -> new NotHere("There is no such flight here."));
    return entries(viewer, row.aircraftId, List.of(row.entryId), View.EVERYTHING).get(0);
  }

  /** When aircraft took off, from a moment on, each in order; one that did not is left out. */
  @Reading
  public Map<UUID, List<Instant>> takeOffs(
      Viewer viewer, Collection<UUID> aircraftIds, Instant from, View view) {
    Map<UUID, List<Instant>> takeOffs = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      for (LegRepository.TakeOff one : flown.takeOffs(aircraftIds, from, view)) {
        takeOffs.computeIfAbsent(one.aircraftId(), id -> new ArrayList<>()).add(one.at());
      }
    }
    return takeOffs;
  }

  /** The flight that landed last, for the next one to follow on from. */
  @Reading
  public Optional<FlightSheet> last(Viewer viewer, UUID aircraftId) {
    return repository.lastOf(aircraftId).map(FlightSheet::of);
  }

  /** The aircraft whose flights the viewer has reported since a day, the latest report first. */
  @Reading
  public List<UUID> reportedBy(Viewer viewer, LocalDate since, int most) {
    return repository.aircraftReportedBy(viewer.personId(), since, most);
  }

  /** What one form has filed, if it has. */
  @Reading
  public Optional<FlightSheet> ofForm(Viewer viewer, UUID formKey) {
    return repository.ofForm(Flight.class, formKey).map(FlightSheet::of);
  }

  /** What an aircraft flew after one moment, up to another. */
  public record Between(UUID aircraftId, Instant after, Instant upTo) {}

  /** How many flights there were in each stretch, in the order asked, in one statement. */
  @Reading
  public List<Long> between(Viewer viewer, List<Between> stretches) {
    return stretches.isEmpty() ? List.of() : flown.countBetween(stretches);
  }

  private List<Entry> entries(Viewer viewer, UUID aircraftId, List<UUID> ids, View view) {
    Map<UUID, List<FlightSheet>> rows = new HashMap<>();
    List<UUID> current = new ArrayList<>();
    for (Flight row : repository.entries(ids, view)) {
      rows.computeIfAbsent(row.entryId, id -> new ArrayList<>()).add(FlightSheet.of(row));
    }
    rows.values().forEach(list -> current.add(list.get(list.size() - 1).id()));
    Map<UUID, List<Breaks.Line>> broken = new HashMap<>();
    for (Breaks.Line line : breaks.of(viewer, aircraftId, view)) {
      broken.computeIfAbsent(line.flight().id(), id -> new ArrayList<>()).add(line);
    }
    UsageLine usage = usageLines.of(viewer, aircraftId, view);
    OwnHours own = ownHours(viewer, aircraftId, view);
    List<Entry> entries = new ArrayList<>();
    for (UUID id : ids) {
      List<FlightSheet> list = rows.get(id);
      FlightSheet last = list.get(list.size() - 1);
      entries.add(
          new Entry(
              list,
              last.isVoid() ? 0 : own.of(last),
              usage.unitsAt(last.flight().landing(), trestle.reckoning.Counter.HOURS),
              broken.getOrDefault(last.id(), List.of())));
    }
    return entries;
  }

  private OwnHours ownHours(Viewer viewer, UUID aircraftId, View view) {
    View known = new View(View.EVERYTHING.upTo(), view.knownTo());
    List<UUID> one = List.of(aircraftId);
    return new OwnHours(
        fleet.hoursRules(viewer, one, known).get(aircraftId),
        fleet.meterChanges(viewer, one, known).getOrDefault(aircraftId, List.of()));
  }

  private record OwnHours(
      trestle.fleet.HoursRules rules, List<Fleet.MeterChangeSheet> meterChanges) {
    long of(FlightSheet row) {
      return Sequence.hours(row.leg(), meterChanges, rules);
    }
  }
}
