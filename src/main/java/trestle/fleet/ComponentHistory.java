package trestle.fleet;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import trestle.reckoning.Counter;

/**
 * What is stated of one component in one view: what it had run when these records began, its
 * overhauls and its fittings, each oldest first.
 */
public record ComponentHistory(
    ComponentSheet sheet,
    List<Opening> openings,
    List<Overhaul> overhauls,
    List<Fitting> fittings) {

  /**
   * What a counter stood at.
   *
   * @param sinceNew seconds or a count, null when not known
   * @param sinceOverhaul likewise; of one never overhauled, the same as since new
   * @param newOn the day it was new, null when not known
   * @param overhauledOn the day it was last overhauled, or new if never; null when not known
   */
  public record Opening(
      Counter counter,
      Long sinceNew,
      Long sinceOverhaul,
      LocalDate newOn,
      LocalDate overhauledOn,
      Instant at,
      LocalDate on) {}

  public record Overhaul(java.util.UUID id, Instant at, LocalDate on, String reference) {}

  /** Where it is fitted at the end of the view, or null. */
  public Fitting fitted() {
    return fittings.stream().filter(Fitting::isFitted).findFirst().orElse(null);
  }
}
