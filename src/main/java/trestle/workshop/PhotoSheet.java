package trestle.workshop;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A picture of a line.
 *
 * @param sha under which it is kept
 * @param words what it shows, or ""
 */
public record PhotoSheet(
    UUID id, UUID lineId, String sha, String words, String takerName, LocalDate on) {

  static PhotoSheet of(LinePhoto row) {
    return new PhotoSheet(
        row.id(), row.lineEntryId, row.photo, row.words, row.takerName, row.happenedOn());
  }
}
