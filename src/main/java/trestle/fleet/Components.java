package trestle.fleet;

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
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Serial-numbered parts: what they had run, and where they were fitted from when to when. */
@ApplicationScoped
public class Components {
  private static final Comparator<Fitting> OLDEST_FIRST = Comparator.comparing(Fitting::from);

  @Inject ComponentRepository repository;
  @Inject ComponentSheetRepository sheets;
  @Inject ComponentHistories histories;
  @Inject AircraftRepository forms;
  @Inject Revisions revisions;
  @Inject Parts parts;
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
   * @param owner whose it is, or ""
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
      String owner,
      UUID formKey) {

    public Registering(
        PartKind kind,
        String partNumber,
        String serial,
        String description,
        String manufacturer,
        Instant at,
        Map<Counter, Run> runs,
        LocalDate newOn,
        LocalDate overhauledOn,
        UUID formKey) {
      this(
          kind,
          partNumber,
          serial,
          description,
          manufacturer,
          at,
          runs,
          newOn,
          overhauledOn,
          "",
          formKey);
    }
  }

  @Filing
  public UUID register(Viewer viewer, Registering asked) {
    Filings.refuse(ComponentRows.faults(asked, filings.today(viewer)));
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
    ComponentRow row = ComponentRows.component(asked);
    refuseOtherKind(viewer, row);
    List<Filed> rows = new ArrayList<>();
    rows.add(row);
    asked
        .runs()
        .forEach(
            (counter, run) ->
                rows.add(ComponentRows.opening(row.componentId, counter, run, asked)));
    rows.forEach(filed -> filed.happened(asked.at(), viewer.dateOf(asked.at())));
    filings.file(viewer, rows);
    return row.componentId;
  }

  private void refuseOtherKind(Viewer viewer, ComponentRow row) {
    parts
        .of(viewer, row.partNumber, View.EVERYTHING)
        .filter(sheet -> sheet.kind() != PartKind.parse(row.kind))
        .ifPresent(
            sheet -> {
              throw new Refusal(
                  "kind",
                  "Part "
                      + sheet.partNumber()
                      + " is stated to be of kind "
                      + sheet.kind().word()
                      + ".");
            });
  }

  /**
   * What is stated of a component from a day on.
   *
   * @param owner whose it is, or ""
   * @param seen the mark of what was stated as it was read, or null where nobody read it
   */
  public record Revising(
      UUID componentId,
      String partNumber,
      String serial,
      String description,
      String manufacturer,
      String owner,
      LocalDate from,
      String reason,
      String seen,
      UUID formKey) {}

  /** Files what is stated of a component from now on: another owner, a serial read again. */
  @Filing
  public void revise(Viewer viewer, Revising asked) {
    Filings.reasonNeeded(asked.reason());
    Filings.refuse(ComponentRows.faults(asked));
    if (asked.from().isAfter(filings.today(viewer))) {
      throw new Refusal("from", "Holds from must not be in the future.");
    }
    ComponentHistory read = history(viewer, asked.componentId(), View.EVERYTHING);
    if (read.fitted() != null) {
      revisions.bump(viewer, read.fitted().aircraftId());
    }
    repository.lock(asked.componentId());
    if (forms.ofForm(ComponentRow.class, asked.formKey()).isPresent()) {
      return;
    }
    ComponentHistory history = history(viewer, asked.componentId(), View.EVERYTHING);
    if (asked.seen() != null && !asked.seen().equals(history.sheet().mark())) {
      throw new Stale(
          "Somebody stated this component anew since you opened this form: it is now "
              + history.sheet().words()
              + ". Look at what you typed, and file it again.");
    }
    repository
        .withSerial(asked.partNumber().strip(), asked.serial().strip())
        .filter(other -> !other.componentId.equals(asked.componentId()))
        .ifPresent(
            other -> {
              throw new Refusal(
                  "serial",
                  "Part " + other.partNumber + ", serial " + other.serial + ", is here already.");
            });
    ComponentRow row = ComponentRows.component(asked, history.sheet());
    refuseOtherKind(viewer, row);
    row.happened(asked.from().atStartOfDay(viewer.zone()).toInstant(), asked.from());
    filings.file(viewer, row);
  }

  /** Every component of the operator, by part number and serial. */
  @Reading
  public List<ComponentSheet> sheets(Viewer viewer, View view) {
    return repository.components(view).stream().map(ComponentRow::sheet).toList();
  }

  @Reading
  public Map<UUID, ComponentSheet> sheets(Viewer viewer, Collection<UUID> ids, View view) {
    Map<UUID, ComponentSheet> sheets = new HashMap<>();
    if (!ids.isEmpty()) {
      repository.components(ids, view).forEach(row -> sheets.put(row.componentId, row.sheet()));
    }
    return sheets;
  }

  /** How many components have these words in their description, part number or serial. */
  @Reading
  public long count(Viewer viewer, String sought, View view) {
    return sheets.count(sought, view);
  }

  /** Some of those, by part number and serial. */
  @Reading
  public List<ComponentSheet> sought(
      Viewer viewer, String sought, int offset, int most, View view) {
    return sheets.sought(sought, offset, most, view);
  }

  /**
   * The components with a part number that reads like one of these, whatever their blanks and
   * hyphens; one statement.
   *
   * @param keys from {@link ComponentSheet#partKey}
   */
  @Reading
  public List<ComponentSheet> withParts(Viewer viewer, Collection<String> keys, View view) {
    return keys.isEmpty() ? List.of() : sheets.withParts(keys, view);
  }

  /**
   * The components that some of these may be about, and those with such a part number whose serial
   * is not letters around one number: whoever asks looks at each more closely. At most two
   * statements.
   */
  @Reading
  public List<Named.Part> named(Viewer viewer, List<Named> whom, View view) {
    return whom.isEmpty() ? List.of() : sheets.named(whom, view);
  }

  /** Where each of these is fitted at the end of the view; without those that are not. */
  @Reading
  public Map<UUID, Fitting> fitted(Viewer viewer, Collection<UUID> componentIds, View view) {
    Map<UUID, Fitting> fitted = new HashMap<>();
    Carried carried =
        histories.carried(viewer, repository.fitmentsOfComponents(componentIds, view), view);
    for (UUID component : componentIds) {
      carried.fittings(component).stream()
          .filter(Fitting::isFitted)
          .findFirst()
          .ifPresent(fitting -> fitted.put(component, fitting));
    }
    return fitted;
  }

  /**
   * What was ever fitted to each aircraft in the view, itself or within a larger component, oldest
   * first; four statements.
   */
  @Reading
  public Map<UUID, List<Fitting>> fittings(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Fitting>> byAircraft = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      Carried carried =
          histories.carried(viewer, repository.fitmentsOnAircraft(aircraftIds, view), view);
      for (UUID component : carried.components()) {
        for (Fitting fitting : carried.fittings(component)) {
          byAircraft.computeIfAbsent(fitting.aircraftId(), id -> new ArrayList<>()).add(fitting);
        }
      }
      byAircraft.values().forEach(list -> list.sort(OLDEST_FIRST));
    }
    return byAircraft;
  }

  /** The histories of what is fitted to these aircraft at the end of the view, however deep. */
  @Reading
  public Map<UUID, ComponentHistory> fittedTo(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    if (aircraftIds.isEmpty()) {
      return new HashMap<>();
    }
    Map<UUID, ComponentHistory> all = histories(viewer, repository.everOn(aircraftIds), view);
    all.values()
        .removeIf(
            history ->
                history.fitted() == null || !aircraftIds.contains(history.fitted().aircraftId()));
    return all;
  }

  /** All that is stated of each component in the view; a constant number of statements. */
  @Reading
  public Map<UUID, ComponentHistory> histories(
      Viewer viewer, Collection<UUID> componentIds, View view) {
    return componentIds.isEmpty() ? new HashMap<>() : histories.of(viewer, componentIds, view);
  }

  /** What was ever put straight into a component, or onto an aircraft, the oldest first. */
  @Reading
  public List<Placement> inside(Viewer viewer, UUID holderId, View view) {
    return inside(viewer, List.of(holderId), view);
  }

  @Reading
  public List<Placement> inside(Viewer viewer, Collection<UUID> holderIds, View view) {
    return histories.placements(viewer, repository.fitmentsIn(holderIds, view), view);
  }

  /** Where a component, and everything that it ever sat in, was put, the oldest first. */
  @Reading
  public List<Placement> around(Viewer viewer, UUID componentId, View view) {
    return histories.placements(
        viewer, repository.fitmentsOfComponents(List.of(componentId), view), view);
  }

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
}
