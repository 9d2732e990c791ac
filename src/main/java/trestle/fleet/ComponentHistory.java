package trestle.fleet;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.reckoning.Counter;

/**
 * What is stated of one component in one view: what it had run when these records began, its
 * overhauls, where it was put and what aircraft it thereby was on, and what else happened to it;
 * each oldest first.
 *
 * @param fittings on aircraft, also where it sits in a larger component that is on one
 * @param placements where it was put itself
 */
public record ComponentHistory(
    ComponentSheet sheet,
    List<Opening> openings,
    List<Overhaul> overhauls,
    List<Fitting> fittings,
    List<Placement> placements,
    List<Event> events,
    List<MeterReading> meterReadings) {

  static ComponentHistory of(ComponentSheet sheet) {
    return new ComponentHistory(
        sheet,
        new ArrayList<>(),
        new ArrayList<>(),
        new ArrayList<>(),
        new ArrayList<>(),
        new ArrayList<>(),
        new ArrayList<>());
  }

  /**
   * What a counter stood at.
   *
   * @param sinceNew seconds or a count, null when not known
   * @param sinceOverhaul likewise; of one never overhauled, the same as since new
   * @param newOn the day it was new, null when not known
   * @param overhauledOn the day it was last overhauled, or new if never; null when not known
   */
  public record Opening(
      UUID id,
      Counter counter,
      Long sinceNew,
      Long sinceOverhaul,
      LocalDate newOn,
      LocalDate overhauledOn,
      Instant at,
      LocalDate on) {}

  public record Overhaul(UUID id, Instant at, LocalDate on, String reference) {}

  /**
   * @param whom to or by whom, or ""
   * @param restarts a rebuild after which time since new begins again
   */
  public record Event(
      UUID id,
      ComponentEventKind kind,
      Instant at,
      LocalDate on,
      String whom,
      String why,
      String reference,
      boolean restarts) {}

  /**
   * What its own meter showed, in seconds or a count.
   *
   * @param replacedBy what a new meter showed that took its place then, or null
   */
  public record MeterReading(
      UUID id, Counter counter, long reading, Long replacedBy, Instant at, LocalDate on) {

    MeterReading movedTo(Instant moment) {
      return new MeterReading(id, counter, reading, replacedBy, moment, on);
    }

    /** What the meter shows from then on. */
    public long goesOnFrom() {
      return replacedBy == null ? reading : replacedBy;
    }
  }

  /** The aircraft it is on at the end of the view, itself or within another part; or null. */
  public Fitting fitted() {
    return fittings.stream().filter(Fitting::isFitted).findFirst().orElse(null);
  }

  /** Where it was put and still is at the end of the view, or null. */
  public Placement placed() {
    return placements.stream().filter(Placement::isOpen).findFirst().orElse(null);
  }

  public ComponentState state() {
    return stateAt(Instant.MAX);
  }

  /** The state told by all that was filed up to a moment. */
  ComponentState stateAt(Instant moment) {
    for (Placement placement : placements) {
      boolean there =
          !placement.from().isAfter(moment)
              && (placement.to() == null || placement.to().isAfter(moment));
      if (there) {
        return ComponentState.FITTED;
      }
    }
    ComponentState state = ComponentState.IN_STORE;
    for (Event event : events) {
      if (!event.at().isAfter(moment) && !isMended(event, moment)) {
        state = after(state, event.kind());
      }
    }
    return state;
  }

  /** An overhaul makes serviceable what was found not to be. */
  private boolean isMended(Event event, Instant moment) {
    return event.kind() == ComponentEventKind.UNSERVICEABLE
        && overhauls.stream()
            .anyMatch(each -> each.at().isAfter(event.at()) && !each.at().isAfter(moment));
  }

  private static ComponentState after(ComponentState before, ComponentEventKind kind) {
    return switch (kind) {
      case SENT_OUT -> ComponentState.AWAY;
      case UNSERVICEABLE -> ComponentState.UNSERVICEABLE;
      case RETIRED -> ComponentState.RETIRED;
      case RETURNED, SERVICEABLE -> ComponentState.IN_STORE;
      // Work on it is not yet anyone's word that it is serviceable.
      case REPAIRED, INSPECTED, REBUILT -> before;
    };
  }

  /** The day it was new, or null when not known. */
  public LocalDate newOn() {
    return openings.stream()
        .map(Opening::newOn)
        .filter(day -> day != null)
        .findFirst()
        .orElse(null);
  }
}
