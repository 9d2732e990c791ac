package trestle.fleet;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** The aircraft of an operator: what is stated of them, what they count, where parts belong. */
@ApplicationScoped
public class Fleet {
  @Inject AircraftRepository repository;
  @Inject Components components;
  @Inject Revisions revisions;
  @Inject Filings filings;

  /**
   * A new aircraft.
   *
   * @param from the moment at which its counters stood at {@code openings}: flights that landed
   *     later are added to them, earlier ones are in them
   * @param openings the counters it counts; null for one whose total is not known
   * @param formKey the key made when the form was opened, or null
   */
  public record Registering(
      Particulars particulars,
      List<Position> positions,
      Instant from,
      Map<Counter, Long> openings,
      UUID formKey) {}

  /** A revision of the particulars, made on {@code revises} and holding from a day on. */
  public record Revising(
      UUID revises, Particulars particulars, LocalDate from, String reason, UUID formKey) {}

  @Filing
  public UUID register(Viewer viewer, Registering asked) {
    Particulars stated = asked.particulars();
    List<Refusal.Reason> faults = new ArrayList<>(stated.faults());
    asked.positions().forEach(position -> faults.addAll(position.faults()));
    Filings.refuse(faults);
    var before = repository.ofForm(ParticularsRow.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().aircraftId;
    }
    refuseTaken(viewer, stated.registration(), null);

    UUID id = UuidCreator.getTimeOrderedEpoch();
    identity(viewer, id);

    Instant from = filings.notLater(asked.from(), "from");
    List<Filed> rows = new ArrayList<>();
    ParticularsRow row = ParticularsRow.of(id, null, stated);
    row.fromForm(asked.formKey());
    rows.add(row);
    asked.positions().forEach(at -> rows.add(PositionRow.of(id, at, false)));
    asked.openings().forEach((counter, amount) -> rows.add(CounterOpening.of(id, counter, amount)));
    rows.forEach(filed -> filed.happened(from, viewer.dateOf(from)));
    filings.file(viewer, rows);
    return id;
  }

  /**
   * Files a revision of the particulars.
   *
   * @throws Stale when someone has revised them since the form was opened
   */
  @Filing
  public void revise(Viewer viewer, UUID aircraftId, Revising asked) {
    Filings.refuse(asked.particulars().faults());
    Filings.reasonNeeded(asked.reason());
    if (asked.from().isAfter(filings.today(viewer))) {
      throw new Refusal("from", "Holds from must not be in the future.");
    }
    revisions.bump(viewer, aircraftId);
    if (repository.ofForm(ParticularsRow.class, asked.formKey()).isPresent()) {
      return;
    }
    List<ParticularsRow> all = repository.allParticulars(List.of(aircraftId), View.EVERYTHING);
    ParticularsRow newest = all.get(all.size() - 1);
    if (!newest.id().equals(asked.revises())) {
      throw new Stale("Someone revised " + newest.registration + " since you opened this form.");
    }
    if (!newest.registration.equals(asked.particulars().registration())) {
      refuseTaken(viewer, asked.particulars().registration(), aircraftId);
    }
    ParticularsRow row = ParticularsRow.of(aircraftId, newest.id(), asked.particulars());
    row.happened(asked.from().atStartOfDay(viewer.zone()).toInstant(), asked.from());
    row.because(asked.reason());
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    filings.follow(viewer, aircraftId);
  }

  /**
   * Makes aircraft known here as another operator's record has them, without a word of what is
   * stated of them: that is filed next, in the same transaction. Known ones stay.
   */
  @Filing
  public void takeUp(Viewer viewer, Collection<UUID> aircraftIds) {
    Set<UUID> fresh = new HashSet<>(aircraftIds);
    if (!fresh.isEmpty()) {
      fresh.removeAll(repository.aircraftOf(aircraftIds));
    }
    fresh.forEach(id -> identity(viewer, id));
    repository.flush();
  }

  private void identity(Viewer viewer, UUID id) {
    Aircraft aircraft = new Aircraft();
    aircraft.operatorId = viewer.operatorId();
    aircraft.id = id;
    AircraftRevision revision = new AircraftRevision();
    revision.operatorId = viewer.operatorId();
    revision.aircraftId = id;
    repository.persist(aircraft);
    repository.persist(revision);
  }

  /** Every aircraft of the operator, by registration. */
  @Reading
  public List<AircraftSheet> sheets(Viewer viewer, View view) {
    return repository.particulars(view).stream().map(ParticularsRow::sheet).toList();
  }

  @Reading
  public Map<UUID, AircraftSheet> sheets(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, AircraftSheet> sheets = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      repository
          .particulars(aircraftIds, view)
          .forEach(row -> sheets.put(row.aircraftId, row.sheet()));
    }
    return sheets;
  }

  /**
   * @throws NotHere when the operator had no such aircraft in the view
   */
  @Reading
  public AircraftSheet sheet(Viewer viewer, UUID aircraftId, View view) {
    return repository.particulars(List.of(aircraftId), view).stream()
        .map(ParticularsRow::sheet)
        .findFirst()
        .orElseThrow(() -> new NotHere("There is no such aircraft here."));
  }

  /** One revision of the particulars, with who filed it and why. */
  public record Stated(
      UUID revisionId,
      Particulars particulars,
      LocalDate from,
      String reason,
      Instant recordedAt,
      UUID recordedBy) {}

  /** All that was stated of one aircraft, the newest first. */
  @Reading
  public List<Stated> particularsHistory(Viewer viewer, UUID aircraftId) {
    List<Stated> all = new ArrayList<>();
    for (ParticularsRow row : repository.allParticulars(List.of(aircraftId), View.EVERYTHING)) {
      all.add(
          0,
          new Stated(
              row.id(),
              row.stated(),
              row.happenedOn(),
              row.reason(),
              row.recordedAt(),
              row.recordedBy()));
    }
    return all;
  }

  /** How each aircraft's hours were taken through time; one statement. */
  @Reading
  public Map<UUID, HoursRules> hoursRules(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<HoursRules.HoursRule>> stated = new LinkedHashMap<>();
    for (ParticularsRow row : repository.allParticulars(aircraftIds, view)) {
      stated
          .computeIfAbsent(row.aircraftId, id -> new ArrayList<>())
          .add(
              new HoursRules.HoursRule(
                  row.happenedAt(),
                  HoursBasis.parse(row.hoursBasis),
                  Rounding.parse(row.rounding)));
    }
    Map<UUID, HoursRules> rules = new HashMap<>();
    stated.forEach((id, list) -> rules.put(id, new HoursRules(list)));
    return rules;
  }

  @Reading
  public List<Position> positions(Viewer viewer, UUID aircraftId, View view) {
    return positions(viewer, List.of(aircraftId), view).getOrDefault(aircraftId, List.of());
  }

  @Reading
  public Map<UUID, List<Position>> positions(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Position>> positions = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      for (PositionRow row : repository.positions(aircraftIds, view)) {
        positions.computeIfAbsent(row.aircraftId, id -> new ArrayList<>()).add(row.position());
      }
    }
    return positions;
  }

  /**
   * Required positions in which nothing is fitted at the end of the view, by aircraft; an aircraft
   * without any is left out.
   */
  @Reading
  public Map<UUID, List<Position>> emptyRequiredPositions(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Position>> empty = new HashMap<>();
    Map<UUID, List<Fitting>> fittings = components.fittings(viewer, aircraftIds, view);
    positions(viewer, aircraftIds, view)
        .forEach(
            (id, positions) -> {
              List<Position> bare = new ArrayList<>(positions);
              bare.removeIf(
                  position ->
                      !position.required()
                          || fittings.getOrDefault(id, List.of()).stream()
                              .anyMatch(
                                  fitting ->
                                      fitting.isFitted()
                                          && fitting.positionCode().equals(position.code())));
              if (!bare.isEmpty()) {
                empty.put(id, bare);
              }
            });
    return empty;
  }

  /** What a counter of an aircraft stood at. Amount null: not known. */
  public record OpeningSheet(
      UUID id, UUID aircraftId, Counter counter, Long amount, Instant at, LocalDate on) {

    /** The amount in seconds or a count, or {@link Scale#UNKNOWN}. */
    public long units() {
      return amount == null ? Scale.UNKNOWN : amount;
    }
  }

  /** The openings of each aircraft's counters, oldest first. */
  @Reading
  public Map<UUID, List<OpeningSheet>> openings(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<OpeningSheet>> openings = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      for (CounterOpening row : repository.openings(aircraftIds, view)) {
        openings
            .computeIfAbsent(row.aircraftId, id -> new ArrayList<>())
            .add(
                new OpeningSheet(
                    row.id(),
                    row.aircraftId,
                    new Counter(row.counter),
                    row.amount,
                    row.happenedAt(),
                    row.happenedOn()));
      }
    }
    return openings;
  }

  /** A meter replaced or rolled over; off null: the old one's last reading is not known. */
  public record MeterChangeSheet(
      UUID id, UUID aircraftId, Instant at, LocalDate on, Long offReading, long onReading) {}

  /** The meter changes of each aircraft, oldest first. */
  @Reading
  public Map<UUID, List<MeterChangeSheet>> meterChanges(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<MeterChangeSheet>> changes = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      for (MeterChange row : repository.meterChanges(aircraftIds, view)) {
        changes
            .computeIfAbsent(row.aircraftId, id -> new ArrayList<>())
            .add(
                new MeterChangeSheet(
                    row.id(),
                    row.aircraftId,
                    row.happenedAt(),
                    row.happenedOn(),
                    row.offReading,
                    row.onReading));
      }
    }
    return changes;
  }

  private void refuseTaken(Viewer viewer, String registration, UUID except) {
    repository.lockRegistration(viewer.operatorId(), registration);
    for (AircraftSheet other : sheets(viewer, View.EVERYTHING)) {
      boolean taken = other.registration().equals(registration) && !other.retired();
      if (taken && !other.id().equals(except)) {
        throw new Refusal("registration", registration + " is registered already.");
      }
    }
  }
}
