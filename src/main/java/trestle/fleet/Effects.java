package trestle.fleet;

import java.util.Collection;
import java.util.List;
import java.util.UUID;
import trestle.web.Viewer;

/**
 * What a correction would move, and what rested on the record that it corrects: for whoever is
 * about to file it. The rooms below ask; a room that sees all of them answers.
 */
public interface Effects {

  /** "Fifty-hour check" was due at 6,050.0 h, and would be at 6,048.5 h. */
  record Move(String registration, String what, String before, String after) {}

  /** Something signed or certified after the record was filed. */
  record Rested(String words, String by, String at, String link) {}

  /**
   * @param tried whether it was tried out: else moves says nothing
   * @param refused why it could not be filed as things stand, or ""
   * @param rested the newest first
   * @param more whether there is more that rested on it than is listed
   */
  record Told(boolean tried, String refused, List<Move> moves, List<Rested> rested, boolean more) {

    public boolean isStill() {
      return tried && refused.isEmpty() && moves.isEmpty();
    }
  }

  /**
   * Reckons with and without: files the correction, looks at what that moves, and takes all of it
   * back. Call it outside any transaction.
   *
   * @param recordId the row to be corrected
   * @param aircraftIds whose figures it could move, besides the aircraft the record is of
   * @param filing files the correction; null to list only what rested on the record
   */
  Told of(Viewer viewer, UUID recordId, Collection<UUID> aircraftIds, Runnable filing);
}
