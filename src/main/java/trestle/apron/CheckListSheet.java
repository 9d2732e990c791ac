package trestle.apron;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;

/**
 * A list to go by.
 *
 * @param kind which list it is
 * @param typeName whose it is, "" for all types that have none of their own
 * @param rowId the revision that stands; null for the one that is shipped
 * @param on since when; null for the one that is shipped
 */
public record CheckListSheet(
    Kind kind, String typeName, List<String> lines, UUID rowId, LocalDate on, String reason) {

  /** The lists there are. */
  public enum Kind {
    AFTER_MAINTENANCE("after-maintenance", "After maintenance"),
    WALK_ROUND("walk-round", "Walk-round");

    private final String word;
    private final String title;

    Kind(String word, String title) {
      this.word = word;
      this.title = title;
    }

    public String word() {
      return word;
    }

    public String title() {
      return title;
    }

    /** The list of that word, or null. */
    static Kind of(String word) {
      for (Kind kind : values()) {
        if (kind.word.equals(word)) {
          return kind;
        }
      }
      return null;
    }
  }

  /** A line: where on the aircraft, and what to look for there. */
  public record Line(String place, String look) {
    static Line of(String text) {
      int colon = text.indexOf(": ");
      return colon < 0
          ? new Line(text, "")
          : new Line(text.substring(0, colon), text.substring(colon + 2));
    }

    /** The form on which this line becomes a defect, its place filled in. */
    public String reportAt(UUID aircraftId) {
      return "/defects/new?aircraft="
          + aircraftId
          + "&place="
          + URLEncoder.encode(place, StandardCharsets.UTF_8);
    }
  }

  public CheckListSheet {
    lines = List.copyOf(lines);
  }

  /** Whether it is still the example, and not yet the operator's own. */
  public boolean isExample() {
    return rowId == null;
  }

  public List<Line> read() {
    return lines.stream().map(Line::of).toList();
  }

  public String text() {
    return String.join("\n", lines);
  }

  /** "all types", "Skerry 200". */
  public String whose() {
    return typeName.isEmpty() ? "all types" : typeName;
  }

  public String link() {
    return "/check-lists/revision?kind="
        + kind.word()
        + "&type="
        + URLEncoder.encode(typeName, StandardCharsets.UTF_8);
  }
}
