package trestle.defects;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.standing.Ground;

/**
 * An open defect as lists show it.
 *
 * @param state a word: "reported", "triaged", "deferred"
 * @param stateWords what stands about it, a sentence
 * @param limitation the operating limitation of its deferral, or ""
 * @param forbids what may not be flown with it, such as "IFR" or "night, hire"; or ""
 * @param placard the text of its placard, or ""
 * @param lastDay the last day it may be flown with, or null
 * @param lastWords until when, with both times, or ""
 * @param link the defect's own page
 * @param decided the page of the deferral that stands, or ""
 * @param grounds what it does to the aircraft's standing
 */
public record DefectLine(
    UUID entryId,
    UUID aircraftId,
    long number,
    String words,
    String chapter,
    String place,
    Judgement judgement,
    LocalDate foundOn,
    String state,
    String stateWords,
    String limitation,
    String forbids,
    String placard,
    LocalDate lastDay,
    String lastWords,
    String link,
    String decided,
    List<Ground> grounds) {

  /** The state of one whose deferral has run out. */
  static final String RUN_OUT = "run out";

  /** Whether it stands among what falls due, and holds the aircraft from there. */
  boolean runOut() {
    return state.equals(RUN_OUT);
  }

  /** "No. 231". */
  public String no() {
    return "No. " + number;
  }

  public boolean holds() {
    return grounds.stream().anyMatch(ground -> ground.weight() == Ground.Weight.HELD);
  }

  public boolean limits() {
    return !holds() && !grounds.isEmpty();
  }

  /** Until when, where what stands about it does not say so already; or "". */
  public String untilWords() {
    return stateWords.contains(lastWords) ? "" : lastWords;
  }

  /** What keeps an aircraft on the ground first, then what limits it, then the rest. */
  int order() {
    return holds() || runOut() ? 0 : limits() ? 1 : 2;
  }

  /** "24 Electrical power", or "". */
  public String system() {
    return Chapters.label(chapter);
  }
}
