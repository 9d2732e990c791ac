package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Components fitted, removed and swapped. Each moment says between which flights it falls: a flight
 * that landed at or before it came first.
 */
@ApplicationScoped
public class Fitments {
  @Inject AircraftRepository rows;
  @Inject Components components;
  @Inject SpotCheck check;
  @Inject ComponentLock lock;
  @Inject Filings filings;

  /**
   * A component put into a position of an aircraft, or into a place of another component.
   *
   * @param released the certificate of release to service, or null
   */
  public record Fit(UUID componentId, Spot spot, Instant at, String released, UUID formKey) {

    public Fit(UUID componentId, Spot spot, Instant at, UUID formKey) {
      this(componentId, spot, at, null, formKey);
    }

    public Fit(UUID componentId, UUID aircraftId, String positionCode, Instant at, UUID formKey) {
      this(componentId, Spot.on(aircraftId, positionCode), at, formKey);
    }
  }

  /**
   * @param scheduled it was removed because its time had come, not because something was wrong
   * @param released the certificate of release to service, or null
   */
  public record Remove(
      UUID fitmentId, Instant at, String why, boolean scheduled, String released, UUID formKey) {

    public Remove(UUID fitmentId, Instant at, String why, boolean scheduled, UUID formKey) {
      this(fitmentId, at, why, scheduled, null, formKey);
    }
  }

  /**
   * Two components change places; one that is fitted nowhere takes the other's place.
   *
   * @param componentId one that is fitted
   * @param otherId the one that comes in its place
   * @param released the certificate of release to service, or null
   */
  public record Swap(
      UUID componentId,
      UUID otherId,
      Instant at,
      String why,
      boolean scheduled,
      String released,
      UUID formKey) {

    public Swap(
        UUID componentId, UUID otherId, Instant at, String why, boolean scheduled, UUID formKey) {
      this(componentId, otherId, at, why, scheduled, null, formKey);
    }
  }

  /** Puts an earlier fitment, removal, overhaul or event right. */
  public record Correcting(UUID corrects, Instant at, boolean voids, String reason, UUID formKey) {}

  /**
   * Fits a component.
   *
   * @return the fitment's id
   * @throws Refusal when it is elsewhere, the place is taken, or it does not belong there
   */
  @Filing
  public UUID fit(Viewer viewer, Fit asked) {
    filings.notLater(asked.at(), "on");
    Spot spot = asked.spot();
    if (spot.isInComponent()) {
      lock.take(viewer, List.of(asked.componentId(), spot.assemblyId()), List.of());
    } else {
      lock.take(viewer, List.of(asked.componentId()), List.of(spot.aircraftId()));
    }
    var before = rows.ofForm(Fitment.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    ComponentHistory component = components.history(viewer, asked.componentId(), View.EVERYTHING);
    check.refusePlacedFrom(viewer, component, asked.at());
    check.refuseUnfit(viewer, component, spot, asked.at());
    check.refuseTakenFrom(viewer, spot, asked.at());
    Fitment row = fitment(viewer, asked.componentId(), spot, asked.at());
    row.released = asked.released();
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    return row.id();
  }

  /**
   * Removes what a fitment fitted.
   *
   * @return the removal's id
   */
  @Filing
  public UUID remove(Viewer viewer, Remove asked) {
    filings.notLater(asked.at(), "on");
    Fitment fitment =
        rows.row(Fitment.class, asked.fitmentId())
            .orElseThrow(() -> new NotHere("There is no such fitment here."));
    lock.take(
        viewer,
        List.of(fitment.componentId),
        fitment.aircraftId == null ? List.of() : List.of(fitment.aircraftId));
    var before = rows.ofForm(Removal.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    Placement placement =
        components.history(viewer, fitment.componentId, View.EVERYTHING).placements().stream()
            .filter(each -> each.fitmentId().equals(fitment.id()))
            .findFirst()
            .orElseThrow(
                () -> new Stale("Someone corrected this fitment since you opened this form."));
    if (!placement.isOpen()) {
      throw new Stale("It was removed already.");
    }
    refuseBefore(viewer, asked.at(), placement);
    Removal row = removal(viewer, placement, asked.at(), asked.why(), asked.scheduled());
    row.released = asked.released();
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    return row.id();
  }

  /**
   * Two components change places at one moment: on one aircraft or two, in positions or within
   * larger components.
   *
   * @throws Refusal when either does not belong where the other was
   */
  @Filing
  public void swap(Viewer viewer, Swap asked) {
    filings.notLater(asked.at(), "on");
    if (asked.componentId().equals(asked.otherId())) {
      throw new Refusal("other", "The other must be another component.");
    }
    lock.take(viewer, List.of(asked.componentId(), asked.otherId()), List.of());
    if (rows.ofForm(Removal.class, asked.formKey()).isPresent()) {
      return;
    }
    ComponentHistory one = components.history(viewer, asked.componentId(), View.EVERYTHING);
    ComponentHistory other = components.history(viewer, asked.otherId(), View.EVERYTHING);
    if (one.placed() == null) {
      throw new Refusal("", one.sheet().words() + " is fitted nowhere: fit it instead.");
    }
    List<Filed> filed = new ArrayList<>();
    Removal first = removal(viewer, one.placed(), asked);
    first.fromForm(asked.formKey());
    filed.add(first);
    if (other.placed() == null) {
      check.refusePlacedFrom(viewer, other, asked.at());
    } else {
      filed.add(removal(viewer, other.placed(), asked));
    }
    filed.add(moved(viewer, other, one.placed(), asked));
    if (other.placed() != null) {
      filed.add(moved(viewer, one, other.placed(), asked));
    }
    filings.file(viewer, filed);
  }

  private Removal removal(Viewer viewer, Placement placement, Swap asked) {
    refuseBefore(viewer, asked.at(), placement);
    Removal row = removal(viewer, placement, asked.at(), asked.why(), asked.scheduled());
    row.released = asked.released();
    return row;
  }

  /** A component put where another one was. */
  private Fitment moved(Viewer viewer, ComponentHistory component, Placement to, Swap asked) {
    Spot spot = Spot.of(to);
    check.refuseUnfit(viewer, component, spot, asked.at());
    Fitment row = fitment(viewer, component.sheet().id(), spot, asked.at());
    row.released = asked.released();
    return row;
  }

  private void refuseBefore(Viewer viewer, Instant at, Placement placement) {
    if (at.isBefore(placement.from())) {
      throw new Refusal(
          "on",
          "Removed must not be before it was fitted, "
              + check.words(viewer, placement)
              + ", "
              + placement.fromOn()
              + ".");
    }
  }

  private static Fitment fitment(Viewer viewer, UUID componentId, Spot spot, Instant at) {
    Fitment row = new Fitment();
    row.componentId = componentId;
    row.aircraftId = spot.aircraftId();
    row.positionCode = spot.positionCode();
    row.assemblyId = spot.assemblyId();
    row.place = spot.place();
    row.happened(at, viewer.dateOf(at));
    return row;
  }

  private static Removal removal(
      Viewer viewer, Placement placement, Instant at, String why, boolean scheduled) {
    Removal row = new Removal();
    row.fitmentId = placement.fitmentId();
    row.fromAircraft = placement.aircraftId();
    row.why = why == null ? "" : why.strip();
    row.scheduled = scheduled;
    row.happened(at, viewer.dateOf(at));
    return row;
  }
}
