package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Components fitted, removed and overhauled. Each moment says between which flights it falls: a
 * flight that landed at or before it came first.
 */
@ApplicationScoped
public class Fitments {
  @Inject ComponentRepository repository;
  @Inject AircraftRepository rows;
  @Inject Components components;
  @Inject Fleet fleet;
  @Inject Revisions revisions;
  @Inject Filings filings;

  public record Fit(
      UUID componentId, UUID aircraftId, String positionCode, Instant at, UUID formKey) {}

  /**
   * @param scheduled it was removed because its time had come, not because something was wrong
   */
  public record Remove(UUID fitmentId, Instant at, String why, boolean scheduled, UUID formKey) {}

  public record Overhaul(UUID componentId, Instant at, String reference, UUID formKey) {}

  /** Puts an earlier fitment, removal or overhaul right. */
  public record Correcting(UUID corrects, Instant at, boolean voids, String reason, UUID formKey) {}

  /**
   * Fits a component.
   *
   * @return the fitment's id
   * @throws Refusal when it or the position is taken, or the position takes another kind of part
   */
  @Filing
  public UUID fit(Viewer viewer, Fit asked) {
    filings.notLater(asked.at(), "on");
    revisions.bump(viewer, asked.aircraftId());
    lock(asked.componentId());
    var before = rows.ofForm(Fitment.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    Position position = position(viewer, asked);
    ComponentHistory component = components.history(viewer, asked.componentId(), View.EVERYTHING);
    if (position.kind() != component.sheet().kind()) {
      throw new Refusal(
          "place",
          position.label()
              + " takes a part of kind "
              + position.kind().word()
              + "; "
              + component.sheet().words()
              + " is of kind "
              + component.sheet().kind().word()
              + ".");
    }
    refuseFittedFrom(viewer, asked.at(), component.fittings());
    refuseOccupiedFrom(viewer, asked, position);

    Fitment row = new Fitment();
    row.componentId = asked.componentId();
    row.aircraftId = asked.aircraftId();
    row.positionCode = position.code();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, List.of(row));
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
    Fitment fitment = fitment(asked.fitmentId());
    revisions.bump(viewer, fitment.aircraftId);
    lock(fitment.componentId);
    var before = rows.ofForm(Removal.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    Fitting fitting = fitting(viewer, fitment);
    if (!fitting.isFitted()) {
      throw new Stale("It was removed already.");
    }
    refuseBeforeFitting(viewer, asked.at(), fitting);
    Removal row = new Removal();
    row.fitmentId = fitting.fitmentId();
    row.fromAircraft = fitment.aircraftId;
    row.why = asked.why() == null ? "" : asked.why().strip();
    row.scheduled = asked.scheduled();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, List.of(row));
    return row.id();
  }

  /** Files an overhaul: time since overhaul restarts, time since new runs on. */
  @Filing
  public UUID overhaul(Viewer viewer, Overhaul asked) {
    filings.notLater(asked.at(), "on");
    ComponentHistory component = lockedWithAircraft(viewer, asked.componentId());
    var before = rows.ofForm(ComponentOverhaul.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    ComponentOverhaul row = new ComponentOverhaul();
    row.componentId = component.sheet().id();
    row.reference = asked.reference() == null ? "" : asked.reference().strip();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, List.of(row));
    return row.id();
  }

  /** Puts the moment of a fitment right, or says that there was none. */
  @Filing
  public void correctFitment(Viewer viewer, Correcting asked) {
    filings.notLater(asked.at(), "on");
    Fitment original = fitment(asked.corrects());
    revisions.bump(viewer, original.aircraftId);
    lock(original.componentId);
    filings.correctable(Fitment.class, original.id(), asked.reason());
    Fitting fitting = fitting(viewer, original);
    if (asked.voids() && !fitting.isFitted()) {
      throw new Refusal("", "Void its removal first.");
    }
    if (!asked.voids()) {
      refuseFitClash(viewer, asked.at(), fitting);
    }
    Fitment row = new Fitment();
    row.componentId = original.componentId;
    row.aircraftId = original.aircraftId;
    row.positionCode = original.positionCode;
    row.isVoid = asked.voids();
    row.correct(original.id(), asked.reason());
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, List.of(row));
  }

  /** Puts the moment of a removal right, or says that there was none. */
  @Filing
  public void correctRemoval(Viewer viewer, Correcting asked) {
    filings.notLater(asked.at(), "on");
    Removal original =
        rows.row(Removal.class, asked.corrects())
            .orElseThrow(() -> new NotHere("There is no such removal here."));
    Fitment fitment = fitment(original.fitmentId);
    revisions.bump(viewer, fitment.aircraftId);
    lock(fitment.componentId);
    filings.correctable(Removal.class, original.id(), asked.reason());
    Fitting fitting = fittingOf(viewer, fitment.componentId, original);
    refuseBeforeFitting(viewer, asked.at(), fitting);
    refuseRemovalClash(viewer, asked, fitting);
    Removal row = new Removal();
    row.fitmentId = original.fitmentId;
    row.fromAircraft = fitment.aircraftId;
    row.why = original.why;
    row.scheduled = original.scheduled;
    row.isVoid = asked.voids();
    row.correct(original.id(), asked.reason());
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, List.of(row));
  }

  /** Puts the moment of an overhaul right, or says that there was none. */
  @Filing
  public void correctOverhaul(Viewer viewer, Correcting asked) {
    filings.notLater(asked.at(), "on");
    ComponentOverhaul original =
        rows.row(ComponentOverhaul.class, asked.corrects())
            .orElseThrow(() -> new NotHere("There is no such overhaul here."));
    lockedWithAircraft(viewer, original.componentId);
    filings.correctable(ComponentOverhaul.class, original.id(), asked.reason());
    ComponentOverhaul row = new ComponentOverhaul();
    row.componentId = original.componentId;
    row.reference = original.reference;
    row.isVoid = asked.voids();
    row.correct(original.id(), asked.reason());
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, List.of(row));
  }

  /** Locks the aircraft that it is fitted to, if any, then the component. */
  private ComponentHistory lockedWithAircraft(Viewer viewer, UUID componentId) {
    Fitting fitted = components.history(viewer, componentId, View.EVERYTHING).fitted();
    if (fitted != null) {
      revisions.bump(viewer, fitted.aircraftId());
    }
    lock(componentId);
    return components.history(viewer, componentId, View.EVERYTHING);
  }

  private void lock(UUID componentId) {
    if (!repository.lock(componentId)) {
      throw new NotHere("There is no such component here.");
    }
  }

  private Position position(Viewer viewer, Fit asked) {
    return fleet.positions(viewer, asked.aircraftId(), View.EVERYTHING).stream()
        .filter(position -> position.code().equals(asked.positionCode()))
        .findFirst()
        .orElseThrow(() -> new Refusal("place", "Position must be one of this aircraft's."));
  }

  private Fitment fitment(UUID id) {
    return rows.row(Fitment.class, id)
        .orElseThrow(() -> new NotHere("There is no such fitment here."));
  }

  private Fitting fitting(Viewer viewer, Fitment row) {
    return components.history(viewer, row.componentId, View.EVERYTHING).fittings().stream()
        .filter(fitting -> fitting.fitmentId().equals(row.id()))
        .findFirst()
        .orElseThrow(() -> new Stale("Someone corrected this fitment since you opened this form."));
  }

  private Fitting fittingOf(Viewer viewer, UUID componentId, Removal row) {
    return components.history(viewer, componentId, View.EVERYTHING).fittings().stream()
        .filter(fitting -> row.id().equals(fitting.removalId()))
        .findFirst()
        .orElseThrow(() -> new NotHere("There is no such removal here."));
  }

  private void refuseFittedFrom(Viewer viewer, Instant at, List<Fitting> fittings) {
    for (Fitting fitting : fittings) {
      if (fitting.to() == null || fitting.to().isAfter(at)) {
        throw new Refusal(
            "place",
            "It is fitted to "
                + registration(viewer, fitting.aircraftId())
                + " ("
                + fitting.positionLabel()
                + ") then or later: remove it there first.");
      }
    }
  }

  private void refuseOccupiedFrom(Viewer viewer, Fit asked, Position position) {
    for (Fitting other : ofAircraft(viewer, asked.aircraftId())) {
      boolean stillThere = other.to() == null || other.to().isAfter(asked.at());
      if (other.positionCode().equals(position.code()) && stillThere) {
        throw new Refusal(
            "place",
            position.label()
                + " is taken then or later by "
                + other.description()
                + ", serial "
                + other.serial()
                + ": remove that first.");
      }
    }
  }

  private void refuseBeforeFitting(Viewer viewer, Instant at, Fitting fitting) {
    if (at.isBefore(fitting.from())) {
      throw new Refusal(
          "on", "Removed must not be before it was fitted, " + viewer.dateOf(fitting.from()) + ".");
    }
  }

  /** A fitment moved in time must not meet another of the component or in the position. */
  private void refuseFitClash(Viewer viewer, Instant at, Fitting fitting) {
    if (fitting.to() != null && at.isAfter(fitting.to())) {
      throw new Refusal("on", "Fitted must not be after it was removed.");
    }
    refuseMeeting(viewer, at, fitting.to(), fitting);
  }

  private void refuseRemovalClash(Viewer viewer, Correcting asked, Fitting fitting) {
    refuseMeeting(viewer, fitting.from(), asked.voids() ? null : asked.at(), fitting);
  }

  private void refuseMeeting(Viewer viewer, Instant from, Instant to, Fitting fitting) {
    for (Fitting other :
        components.history(viewer, fitting.componentId(), View.EVERYTHING).fittings()) {
      if (!other.fitmentId().equals(fitting.fitmentId()) && meet(from, to, other)) {
        throw new Refusal("on", "It was fitted elsewhere then.");
      }
    }
    for (Fitting other : ofAircraft(viewer, fitting.aircraftId())) {
      if (!other.fitmentId().equals(fitting.fitmentId())
          && other.positionCode().equals(fitting.positionCode())
          && meet(from, to, other)) {
        throw new Refusal(
            "on", fitting.positionLabel() + " was taken then by serial " + other.serial() + ".");
      }
    }
  }

  private static boolean meet(Instant from, Instant to, Fitting other) {
    boolean beforeItEnds = other.to() == null || from.isBefore(other.to());
    boolean afterItBegins = to == null || other.from().isBefore(to);
    return beforeItEnds && afterItBegins;
  }

  private List<Fitting> ofAircraft(Viewer viewer, UUID aircraftId) {
    Map<UUID, List<Fitting>> all =
        components.fittings(viewer, List.of(aircraftId), View.EVERYTHING);
    return all.getOrDefault(aircraftId, List.of());
  }

  private String registration(Viewer viewer, UUID aircraftId) {
    return fleet.sheet(viewer, aircraftId, View.EVERYTHING).registration();
  }
}
