package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import trestle.fleet.Components;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.reckoning.Compression;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Readings taken in work: compressions, magneto drops, pressures, torques, what was in a filter.
 * Kept as series by component and place; judged only by that component's own limit.
 */
@ApplicationScoped
public class WorkReadings {
  private static final String READINGS = "readings";

  @Inject ReadingRepository readings;
  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject Components components;
  @Inject Totals totals;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * One figure, or of a filter its words.
   *
   * @param value null for words
   */
  public record One(String place, BigDecimal value, String words) {}

  /**
   * Readings of one kind, taken together.
   *
   * @param componentId the engine or propeller, or null for the aircraft
   * @param supply of compressions, in psi; null for 80
   * @param reference reading of the rig's reference orifice that day, or null
   */
  public record Taken(
      UUID lineId,
      UUID componentId,
      ReadingKind kind,
      BigDecimal supply,
      BigDecimal reference,
      List<One> readings,
      Instant at) {}

  /** A reading with what its component's limit says of it. */
  public record Judged(ReadingSheet reading, ReadingVerdict verdict) {}

  /**
   * Files readings.
   *
   * @return their ids
   * @throws Refusal where a value can't be, naming it
   */
  @Filing
  public List<UUID> file(Viewer viewer, Taken taken, UUID formKey) {
    if (!viewer.is(Role.ENGINEER)) {
      throw new Refusal("", "Readings are recorded by an engineer.");
    }
    WorkOrderSheet before = book.ofLine(viewer, taken.lineId());
    revisions.bump(viewer, before.order().aircraftId());
    if (repository.ofForm(WorkReading.class, formKey).isPresent()) {
      return List.of();
    }
    WorkOrderSheet order = book.ofLine(viewer, taken.lineId());
    WorkOrders.stillUnsigned(order, taken.lineId(), READINGS);
    check(taken, clock.instant());
    belongs(viewer, order, taken);
    List<WorkReading> rows = new ArrayList<>();
    for (One one : taken.readings()) {
      WorkReading row = row(viewer, order, taken, one);
      row.fromForm(rows.isEmpty() ? formKey : null);
      rows.add(row);
    }
    List<Filed> all = new ArrayList<>(WorkOrders.started(order, viewer, taken.at()));
    all.addAll(rows);
    ledger.file(act(viewer), all);
    return rows.stream().map(WorkReading::id).toList();
  }

  private static void check(Taken taken, Instant now) {
    if (taken.readings().isEmpty()) {
      throw new Refusal("readings", "Readings are needed: one a row.");
    }
    if (taken.at().isAfter(now)) {
      throw new Refusal("on", "The day they were taken must not be in the future.");
    }
    if (taken.reference() != null) {
      compression("reference", "Reference orifice", taken.reference(), supply(taken));
    }
    for (One one : taken.readings()) {
      if (one.place().isBlank() || one.place().length() > 60) {
        throw new Refusal("readings", "Each reading must name its place, in 60 characters.");
      }
      if (taken.kind().inWords()) {
        continue;
      }
      if (one.value() == null) {
        throw new Refusal("readings", one.place() + " must have a figure.");
      }
      if (taken.kind() == ReadingKind.COMPRESSION) {
        compression("readings", one.place(), one.value(), supply(taken));
      } else if (!taken.kind().canBe(one.value())) {
        throw new Refusal(
            "readings",
            one.place()
                + " must be "
                + taken.kind().range()
                + ", not "
                + ReadingSheet.plain(one.value())
                + ".");
      }
    }
  }

  private static void compression(String field, String what, BigDecimal value, BigDecimal supply) {
    try {
      new Compression(value, supply);
    } catch (IllegalArgumentException e) {
      throw new Refusal(field, what + " " + e.getMessage() + ".");
    }
  }

  private static BigDecimal supply(Taken taken) {
    return taken.supply() == null ? Compression.USUAL_SUPPLY : taken.supply();
  }

  /** The component must be an engine or a propeller that was fitted to this aircraft then. */
  private void belongs(Viewer viewer, WorkOrderSheet order, Taken taken) {
    if (taken.componentId() == null) {
      return;
    }
    boolean fitted =
        totals.at(viewer, order.order().aircraftId(), taken.at()).stream()
            .anyMatch(of -> taken.componentId().equals(of.componentId()));
    if (!fitted) {
      throw new Refusal("component", "It was not fitted to this aircraft that day.");
    }
  }

  private static WorkReading row(Viewer viewer, WorkOrderSheet order, Taken taken, One one) {
    boolean compression = taken.kind() == ReadingKind.COMPRESSION;
    WorkReading row = new WorkReading();
    row.aircraftId = order.order().aircraftId();
    row.lineEntryId = order.line(taken.lineId()).orElseThrow().line().id();
    row.componentId = taken.componentId();
    row.kind = taken.kind().word();
    row.place = one.place().strip();
    row.value = taken.kind().inWords() ? null : one.value();
    row.unit = taken.kind().unit();
    row.supply = compression ? supply(taken) : null;
    row.referenceReading = compression ? taken.reference() : null;
    row.words = one.words();
    row.readerName = viewer.personName();
    row.happened(taken.at(), viewer.dateOf(taken.at()));
    return row;
  }

  /** Takes a reading away that should not stand; it stays in the ledger. */
  @Filing
  public void takeAway(Viewer viewer, UUID readingId, String reason, UUID formKey) {
    WorkReading original =
        repository
            .row(WorkReading.class, readingId)
            .orElseThrow(() -> new NotHere("There is no such reading here."));
    if (!viewer.is(Role.ENGINEER)) {
      throw new Refusal("", "Readings are taken away by an engineer.");
    }
    revisions.bump(viewer, original.aircraftId);
    if (repository.ofForm(WorkReading.class, formKey).isPresent()) {
      return;
    }
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it should not stand.");
    }
    if (original.voided != null || repository.isCorrected(WorkReading.class, readingId)) {
      throw new Stale("Someone took this reading away already.");
    }
    WorkOrders.stillUnsigned(
        book.ofLine(viewer, original.lineEntryId), original.lineEntryId, READINGS);
    WorkReading row = original.again();
    row.voided = true;
    row.happened(original.happenedAt(), original.happenedOn());
    row.correct(readingId, reason.strip());
    row.fromForm(formKey);
    ledger.file(act(viewer), row);
  }

  /** States by what readings of a component are judged, as its own data say. */
  @Filing
  public UUID limit(Viewer viewer, UUID componentId, ReadingVerdict.Limit limit, UUID formKey) {
    if (!viewer.isAny(Role.ENGINEER, Role.CONTROLLER)) {
      throw new Refusal("", "Limits of readings are stated by engineers and controllers.");
    }
    components.history(viewer, componentId, View.EVERYTHING);
    ReadingLimit before = repository.ofForm(ReadingLimit.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    if (limit.least() == null && limit.most() == null && !limit.byReference()) {
      throw new Refusal("least", "A limit is needed: at least, at most, or the reference orifice.");
    }
    if (limit.byReference() && limit.kind() != ReadingKind.COMPRESSION) {
      throw new Refusal("by-reference", "Only compressions are compared to the reference orifice.");
    }
    if (limit.least() != null
        && limit.most() != null
        && limit.least().compareTo(limit.most()) > 0) {
      throw new Refusal("most", "At most must not be less than at least.");
    }
    for (BigDecimal one : new BigDecimal[] {limit.least(), limit.most()}) {
      if (one != null && !limit.kind().canBe(one)) {
        throw new Refusal("least", "A limit must be " + limit.kind().range() + ".");
      }
    }
    ReadingLimit row = new ReadingLimit();
    row.componentId = componentId;
    row.kind = limit.kind().word();
    row.least = limit.least();
    row.most = limit.most();
    row.byReference = limit.byReference();
    row.source = limit.source();
    Instant now = clock.instant();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    ledger.file(act(viewer), row);
    return row.id();
  }

  /** What was read on one line, with the verdicts. */
  @Reading
  public List<Judged> ofLine(Viewer viewer, UUID lineId) {
    List<ReadingSheet> all = readings.ofLine(lineId).stream().map(ReadingSheet::of).toList();
    List<UUID> whose =
        all.stream().map(ReadingSheet::componentId).filter(Objects::nonNull).distinct().toList();
    Map<String, ReadingVerdict.Limit> limits = limits(whose);
    return all.stream()
        .map(
            one -> new Judged(one, ReadingVerdict.of(one, limits.get(key(one.componentId(), one)))))
        .toList();
  }

  /** Everything that was read of one component, oldest first. */
  @Reading
  public List<ReadingSheet> ofComponent(Viewer viewer, UUID componentId) {
    return readings.ofComponent(componentId).stream().map(ReadingSheet::of).toList();
  }

  /** The limits of one component that count, by kind. */
  @Reading
  public Map<ReadingKind, ReadingVerdict.Limit> limitsOf(Viewer viewer, UUID componentId) {
    Map<ReadingKind, ReadingVerdict.Limit> limits = new java.util.EnumMap<>(ReadingKind.class);
    readings
        .limits(List.of(componentId))
        .forEach(row -> limits.put(ReadingKind.parse(row.kind), ReadingVerdict.Limit.of(row)));
    return limits;
  }

  private Map<String, ReadingVerdict.Limit> limits(List<UUID> componentIds) {
    Map<String, ReadingVerdict.Limit> limits = new HashMap<>();
    readings
        .limits(componentIds)
        .forEach(row -> limits.put(row.componentId + row.kind, ReadingVerdict.Limit.of(row)));
    return limits;
  }

  private static String key(UUID componentId, ReadingSheet reading) {
    return componentId + reading.kind().word();
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
