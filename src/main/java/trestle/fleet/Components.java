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
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** Serial-numbered parts: what they had run, and where they were fitted from when to when. */
@ApplicationScoped
public class Components {
  @Inject ComponentRepository repository;
  @Inject AircraftRepository forms;
  @Inject Fleet fleet;
  @Inject Filings filings;

  /**
   * What a counter of a new component stands at; null: not known. Of a component that was never
   * overhauled both are the same.
   */
  public record Run(Long sinceNew, Long sinceOverhaul) {}

  /**
   * A new component.
   *
   * @param at the moment at which it had run what {@code runs} says
   * @param newOn the day it was new, null when not known
   * @param overhauledOn the day it was last overhauled, null when not known or never
   */
  public record Registering(
      PartKind kind,
      String partNumber,
      String serial,
      String description,
      String manufacturer,
      Instant at,
      Map<Counter, Run> runs,
      LocalDate newOn,
      LocalDate overhauledOn,
      UUID formKey) {}

  @Filing
  public UUID register(Viewer viewer, Registering asked) {
    Filings.refuse(faults(viewer, asked));
    filings.notLater(asked.at(), "on");
    var before = forms.ofForm(ComponentRow.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().componentId;
    }
    forms.lockRegistration(viewer.operatorId(), asked.partNumber() + " " + asked.serial());
    repository
        .withSerial(asked.partNumber().strip(), asked.serial().strip())
        .ifPresent(
            other -> {
              throw new Refusal(
                  "serial",
                  "Part " + other.partNumber + ", serial " + other.serial + ", is here already.");
            });
    List<Filed> rows = new ArrayList<>();
    ComponentRow row = row(asked);
    rows.add(row);
    asked.runs().forEach((counter, run) -> rows.add(opening(row.componentId, counter, run, asked)));
    rows.forEach(filed -> filed.happened(asked.at(), viewer.dateOf(asked.at())));
    filings.file(viewer, rows);
    return row.componentId;
  }

  /** Every component of the operator, by part number and serial. */
  @Reading
  public List<ComponentSheet> sheets(Viewer viewer, View view) {
    return repository.components(view).stream().map(ComponentRow::sheet).toList();
  }

  /** What was ever fitted to each aircraft in the view, oldest first; four statements. */
  @Reading
  public Map<UUID, List<Fitting>> fittings(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Fitting>> byAircraft = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      List<Fitment> rows = repository.fitmentsOfAircraft(aircraftIds, view);
      for (Fitting fitting : fittings(viewer, rows, sheetsOf(rows), aircraftIds, view)) {
        byAircraft.computeIfAbsent(fitting.aircraftId(), id -> new ArrayList<>()).add(fitting);
      }
    }
    return byAircraft;
  }

  /** All that is stated of each component in the view; a constant number of statements. */
  @Reading
  public Map<UUID, ComponentHistory> histories(
      Viewer viewer, Collection<UUID> componentIds, View view) {
    Map<UUID, ComponentHistory> histories = new HashMap<>();
    if (componentIds.isEmpty()) {
      return histories;
    }
    for (ComponentRow row : repository.components(componentIds, view)) {
      histories.put(
          row.componentId,
          new ComponentHistory(
              row.sheet(), new ArrayList<>(), new ArrayList<>(), new ArrayList<>()));
    }
    for (ComponentOpening row : repository.openings(componentIds, view)) {
      histories.get(row.componentId).openings().add(opening(row));
    }
    for (ComponentOverhaul row : repository.overhauls(componentIds, view)) {
      histories.get(row.componentId).overhauls().add(overhaul(row));
    }
    List<Fitment> fitments = repository.fitmentsOfComponents(componentIds, view);
    Set<UUID> aircraft = new HashSet<>();
    fitments.forEach(row -> aircraft.add(row.aircraftId));
    for (Fitting fitting : fittings(viewer, fitments, sheetsOf(fitments), aircraft, view)) {
      histories.get(fitting.componentId()).fittings().add(fitting);
    }
    return histories;
  }

  /**
   * A fitment, removal or overhaul of a component that somebody has corrected since: when it had
   * been, and what it was.
   */
  @Reading
  public Optional<Overtaken> overtaken(Viewer viewer, UUID componentId, UUID record) {
    Optional<Fitment> fitment = forms.row(Fitment.class, record);
    Optional<Removal> removal = forms.row(Removal.class, record);
    Optional<ComponentOverhaul> overhaul = forms.row(ComponentOverhaul.class, record);
    return fitment
        .or(() -> removal.flatMap(row -> forms.row(Fitment.class, row.fitmentId)))
        .map(row -> row.componentId)
        .or(() -> overhaul.map(row -> row.componentId))
        .filter(componentId::equals)
        .map(
            found ->
                fitment
                    .map(row -> new Overtaken("fitment", row.happenedAt()))
                    .or(() -> removal.map(row -> new Overtaken("removal", row.happenedAt())))
                    .orElseGet(() -> new Overtaken("overhaul", overhaul.get().happenedAt())));
  }

  /** What stood where somebody's correction stands now. */
  public record Overtaken(String what, Instant at) {}

  /**
   * @throws NotHere when the operator had no such component in the view
   */
  @Reading
  public ComponentHistory history(Viewer viewer, UUID componentId, View view) {
    ComponentHistory history = histories(viewer, List.of(componentId), view).get(componentId);
    if (history == null) {
      throw new NotHere("There is no such component here.");
    }
    return history;
  }

  private Map<UUID, ComponentSheet> sheetsOf(List<Fitment> rows) {
    Set<UUID> ids = new HashSet<>();
    rows.forEach(row -> ids.add(row.componentId));
    Map<UUID, ComponentSheet> sheets = new HashMap<>();
    if (!ids.isEmpty()) {
      repository
          .components(ids, View.EVERYTHING)
          .forEach(row -> sheets.put(row.componentId, row.sheet()));
    }
    return sheets;
  }

  private List<Fitting> fittings(
      Viewer viewer,
      List<Fitment> rows,
      Map<UUID, ComponentSheet> sheets,
      Collection<UUID> aircraftIds,
      View view) {
    List<UUID> ids = rows.stream().map(Filed::id).toList();
    return new FittingRows(rows, repository.removals(ids, view), view.upTo())
        .fittings(sheets, fleet.positions(viewer, aircraftIds, view));
  }

  private List<Refusal.Reason> faults(Viewer viewer, Registering asked) {
    List<Refusal.Reason> faults = new ArrayList<>();
    length(faults, "part-number", "Part number", asked.partNumber(), 60);
    length(faults, "serial", "Serial number", asked.serial(), 60);
    length(faults, "description", "Description", asked.description(), 120);
    LocalDate today = filings.today(viewer);
    if (asked.newOn() != null && asked.newOn().isAfter(today)) {
      faults.add(new Refusal.Reason("new-on", "New on must not be in the future."));
    }
    if (asked.overhauledOn() != null && asked.overhauledOn().isAfter(today)) {
      faults.add(
          new Refusal.Reason("overhauled-on", "Last overhauled on must not be in the future."));
    }
    asked
        .runs()
        .forEach(
            (counter, run) -> {
              if (run.sinceNew() != null
                  && run.sinceOverhaul() != null
                  && run.sinceOverhaul() > run.sinceNew()) {
                faults.add(
                    new Refusal.Reason(
                        counter.name() + "-overhaul",
                        "Since overhaul must not be more than since new."));
              }
            });
    return faults;
  }

  private static void length(
      List<Refusal.Reason> faults, String field, String label, String value, int most) {
    if (value.isBlank()) {
      faults.add(new Refusal.Reason(field, label + " is needed."));
    } else if (value.strip().length() > most) {
      faults.add(new Refusal.Reason(field, label + " must be at most " + most + " characters."));
    }
  }

  private static ComponentRow row(Registering asked) {
    ComponentRow row = new ComponentRow();
    row.componentId = UuidCreator.getTimeOrderedEpoch();
    row.kind = asked.kind().word();
    row.partNumber = asked.partNumber().strip();
    row.serial = asked.serial().strip();
    row.description = asked.description().strip();
    row.manufacturer = asked.manufacturer().strip();
    row.fromForm(asked.formKey());
    return row;
  }

  private static ComponentOpening opening(
      UUID componentId, Counter counter, Run run, Registering asked) {
    ComponentOpening row = new ComponentOpening();
    row.componentId = componentId;
    row.counter = counter.name();
    row.sinceNew = run.sinceNew();
    row.sinceOverhaul = run.sinceOverhaul();
    row.newOn = asked.newOn();
    row.overhauledOn = asked.overhauledOn();
    return row;
  }

  private static ComponentHistory.Opening opening(ComponentOpening row) {
    return new ComponentHistory.Opening(
        new Counter(row.counter),
        row.sinceNew,
        row.sinceOverhaul,
        row.newOn,
        row.overhauledOn,
        row.happenedAt(),
        row.happenedOn());
  }

  private static ComponentHistory.Overhaul overhaul(ComponentOverhaul row) {
    return new ComponentHistory.Overhaul(
        row.id(), row.happenedAt(), row.happenedOn(), row.reference);
  }
}
