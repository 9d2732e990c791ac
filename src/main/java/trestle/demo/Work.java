package trestle.demo;

import java.time.Instant;

/**
 * Work of the story, done or copied from old papers.
 *
 * @param position of the engine or propeller it was done on, or "" for the aircraft
 * @param by the sign-in name of who files it
 * @param transcribedFrom the old paper, or "" when the person who did it files it
 */
record Work(
    String registration,
    String position,
    String requirement,
    Instant at,
    String by,
    String transcribedFrom,
    String remarks) {

  boolean transcribed() {
    return !transcribedFrom.isEmpty();
  }
}
