package trestle.defects;

import java.time.LocalDate;
import java.util.List;
import trestle.standing.Ground;

/**
 * What a person has decided about an open defect, as it stands in one view. It takes the place of
 * what the report alone would do to the aircraft's standing.
 *
 * @param state the defect's state by it, a word such as "triaged" or "deferred"
 * @param words what was decided, a sentence
 * @param limitation the operating limitation, or ""
 * @param forbids what may not be flown with it, such as "IFR" or "night, hire"; or ""
 * @param placard the text of the placard, or ""
 * @param lastDay the last day it may be flown with, or null
 * @param lastWords until when, with both times: "23:59 UTC (20:29 local) on 28 November", or ""
 * @param link the page of the record behind it, or "" where that is the defect's own
 * @param grounds what it means for the aircraft; none: it may be flown
 */
record Decision(
    String state,
    String words,
    String limitation,
    String forbids,
    String placard,
    LocalDate lastDay,
    String lastWords,
    String link,
    List<Ground> grounds) {
  Decision {
    grounds = List.copyOf(grounds);
  }
}
