package trestle.defects;

import java.util.ArrayList;
import java.util.List;
import trestle.web.Shown;

/**
 * An earlier defect that this one may be, come back.
 *
 * @param registration of the aircraft it was on
 * @param flights how many the aircraft, or the same part wherever it was fitted, flew in between;
 *     null where nobody counted
 * @param confirmed a person has said that it is the same
 * @param through the later one that was confirmed to be it, come back: "No. 4"; or ""
 */
public record Earlier(
    DefectBook.Entry entry,
    String registration,
    boolean sameAircraft,
    boolean sameComponent,
    boolean samePlace,
    long days,
    Long flights,
    boolean confirmed,
    String through) {

  public DefectSheet defect() {
    return entry.current();
  }

  /** Why it is thought to be the same: "same aircraft, same part, 12 days and 9 flights before". */
  public String why() {
    List<String> why = new ArrayList<>();
    why.add(sameAircraft ? "same aircraft" : "then on " + registration);
    if (sameComponent) {
      why.add("same part");
    }
    if (samePlace) {
      why.add("same place");
    }
    why.add(
        (days == 0 ? "the same day" : Shown.days(days))
            + (flights == null ? "" : " and " + Shown.plural(flights, "flight"))
            + (days == 0 && flights == null ? "" : " before"));
    if (!through.isEmpty()) {
      why.add("confirmed to be what " + through + " was");
    }
    return String.join(", ", why);
  }

  /** What was done that time, or that it is still open. */
  public String done() {
    RectificationSheet done = entry.rectification();
    return done == null ? "Nothing recorded: it is still open." : done.marked();
  }
}
