package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.fleet.Fleet.OpeningSheet;
import trestle.fleet.Revisions;
import trestle.flights.UsageSteps.Change;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Filing flights in the journey log, and putting them right. A report that disagrees with the
 * records is filed all the same, and the answer says with what it disagrees.
 */
@ApplicationScoped
public class JourneyLog {
  @Inject FlightRepository repository;
  @Inject UsageSteps steps;
  @Inject FuelAndOil fluids;
  @Inject Fleet fleet;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * What was filed.
   *
   * @param disagreements how it fails to follow on; in a repeated answer too
   * @param repeated this form had filed it before
   */
  public record Logged(
      UUID id, UUID entryId, long ledgerSeq, Set<BreakKind> disagreements, boolean repeated) {

    /** Whether it stands against another record, so that a person must resolve which is right. */
    public boolean isDisputed() {
      return disagreements.stream().anyMatch(BreakKind::disputes);
    }
  }

  /**
   * Files a flight.
   *
   * @param formKey made when the form was opened: the same form with the same content is filed once
   *     and answers the same; null when there was no form
   * @throws Refusal when the report is wrong in itself
   * @throws Stale when this form has filed something else already
   */
  @Filing
  public Logged file(Viewer viewer, UUID aircraftId, FlightDraft draft, UUID formKey) {
    revisions.bump(viewer, aircraftId);
    refuse(draft.faults(clock.instant()));
    refuse(uncounted(viewer, aircraftId, draft));
    Flight before = repository.ofForm(Flight.class, formKey).orElse(null);
    if (before != null) {
      return again(viewer, before, aircraftId, draft, null);
    }
    Flight row = Flight.of(aircraftId, draft, viewer.dateOf(draft.landing()));
    row.fromForm(formKey);
    return filed(viewer, row, null);
  }

  /**
   * Files a flight with what was found of fuel and oil after it, both or neither.
   *
   * @param found null when nothing was read
   */
  @Filing
  public Logged file(
      Viewer viewer, UUID aircraftId, FlightDraft draft, FluidDraft found, UUID formKey) {
    Logged logged = file(viewer, aircraftId, draft, formKey);
    if (found != null && !found.isEmpty()) {
      fluids.file(viewer, aircraftId, logged.entryId(), draft, found, formKey);
    }
    return logged;
  }

  /** Files many flights of one aircraft at once. */
  @Filing
  public List<UUID> fileAll(Viewer viewer, UUID aircraftId, List<FlightDraft> drafts) {
    if (drafts.isEmpty()) {
      return List.of();
    }
    revisions.bump(viewer, aircraftId);
    List<Flight> rows = new ArrayList<>();
    for (FlightDraft draft : drafts) {
      refuse(draft.faults(clock.instant()));
      rows.add(Flight.of(aircraftId, draft, viewer.dateOf(draft.landing())));
    }
    List<OpeningSheet> openings = openings(viewer, aircraftId);
    drafts.forEach(draft -> refuse(Counted.leftOut(draft, openings)));
    steps.change(viewer, Change.of(aircraftId, List.of(), rows.stream().map(Flight::leg).toList()));
    ledger.file(act(viewer), rows);
    return rows.stream().map(Flight::id).toList();
  }

  /**
   * Replaces a filed flight by what it should have said. The original is kept, and shown.
   *
   * @param flightId the row to replace; refused as stale when it has been replaced already
   */
  @Filing
  public Logged correct(
      Viewer viewer, UUID flightId, FlightDraft draft, String reason, UUID formKey) {
    Flight original = locked(viewer, flightId);
    reasonNeeded(reason);
    refuse(draft.faults(clock.instant()));
    refuse(uncounted(viewer, original.aircraftId, draft));
    Flight before = repository.ofForm(Flight.class, formKey).orElse(null);
    if (before != null) {
      return again(viewer, before, original.aircraftId, draft, flightId);
    }
    refuseReplaced(original);
    Flight row = Flight.of(original.aircraftId, draft, viewer.dateOf(draft.landing()));
    row.entryId = original.entryId;
    row.correct(original.id(), reason.strip());
    row.fromForm(formKey);
    return filed(viewer, row, original);
  }

  /** Says that a filed flight never was. It is kept, shown as void, and counts for nothing. */
  @Filing
  public Logged voided(Viewer viewer, UUID flightId, String reason, UUID formKey) {
    Flight original = locked(viewer, flightId);
    reasonNeeded(reason);
    Flight before = repository.ofForm(Flight.class, formKey).orElse(null);
    if (before != null) {
      return again(viewer, before, original.aircraftId, original.draft(), flightId);
    }
    refuseReplaced(original);
    Flight row = Flight.of(original.aircraftId, original.draft(), original.happenedOn());
    row.entryId = original.entryId;
    row.isVoid = true;
    row.correct(original.id(), reason.strip());
    row.fromForm(formKey);
    return filed(viewer, row, original);
  }

  /** Reckons all derived rows of aircraft again from their flights; they come out the same. */
  @Filing
  public void rebuild(Viewer viewer, Collection<UUID> aircraftIds) {
    repository.flush();
    repository.measure();
    for (UUID aircraftId : aircraftIds) {
      revisions.bump(viewer, aircraftId);
      steps.reckonAgain(viewer, aircraftId);
    }
  }

  private Logged filed(Viewer viewer, Flight row, Flight replaced) {
    List<Leg> gone = replaced == null || replaced.isVoid ? List.of() : List.of(replaced.leg());
    List<Leg> come = row.isVoid ? List.of() : List.of(row.leg());
    List<Break> breaks = List.of();
    if (!gone.isEmpty() || !come.isEmpty()) {
      breaks = steps.change(viewer, Change.of(row.aircraftId, gone, come));
    }
    ledger.file(act(viewer), row);
    return new Logged(row.id(), row.entryId, row.ledgerSeq(), kinds(breaks), false);
  }

  /** The same form again: with the same content, the same answer. */
  private Logged again(
      Viewer viewer, Flight before, UUID aircraftId, FlightDraft draft, UUID corrects) {
    boolean same =
        before.aircraftId.equals(aircraftId)
            && before.draft().equals(draft)
            && java.util.Objects.equals(before.corrects(), corrects);
    if (!same) {
      throw new Stale(
          "This form has filed a flight already, with other content. Open a new form, or correct"
              + " what it filed.");
    }
    return new Logged(
        before.id(), before.entryId, before.ledgerSeq(), kinds(steps.breaksAt(before.id())), true);
  }

  private Flight locked(Viewer viewer, UUID flightId) {
    Flight original =
        repository
            .row(Flight.class, flightId)
            .orElseThrow(() -> new NotHere("There is no such flight here."));
    revisions.bump(viewer, original.aircraftId);
    return original;
  }

  private void refuseReplaced(Flight original) {
    if (repository.isCorrected(Flight.class, original.id())) {
      throw new Stale("Someone has corrected this flight since you opened this form.");
    }
  }

  /** Counters that the aircraft counted by then and the report leaves out. */
  private List<Refusal.Reason> uncounted(Viewer viewer, UUID aircraftId, FlightDraft draft) {
    return Counted.leftOut(draft, openings(viewer, aircraftId));
  }

  private List<OpeningSheet> openings(Viewer viewer, UUID aircraftId) {
    return fleet
        .openings(viewer, List.of(aircraftId), View.EVERYTHING)
        .getOrDefault(aircraftId, List.of());
  }

  private static Set<BreakKind> kinds(List<Break> breaks) {
    Set<BreakKind> kinds = new LinkedHashSet<>();
    breaks.forEach(each -> kinds.add(each.kind()));
    return kinds;
  }

  private static void reasonNeeded(String reason) {
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it changes.");
    }
  }

  private static void refuse(List<Refusal.Reason> faults) {
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private Act act(Viewer viewer) {
    return new Act(viewer.operatorId(), viewer.personId(), clock.instant());
  }
}
