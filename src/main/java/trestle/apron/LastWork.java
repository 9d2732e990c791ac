package trestle.apron;

import java.time.Instant;

/**
 * Work that was done, in words.
 *
 * @param when "14 November 2026 at 6,482.6 h"
 * @param by "R. Hale, licence E-1042", or "copied from Airframe log 1"
 */
record LastWork(String title, Instant at, String when, String by, String link) {

  public String sentence() {
    return title + ", " + when + ", " + by;
  }
}
