package trestle.standing;

import java.util.Comparator;
import java.util.List;
import trestle.fleet.AircraftSheet;
import trestle.reckoning.State;

/**
 * An aircraft's standing and everything that falls due on it, in one view.
 *
 * @param items what bites first comes first
 */
public record AircraftStanding(AircraftSheet sheet, Standing standing, List<DueItem> items) {

  /** Spent or not known first, then the latest past due, then by projected date, then by title. */
  public static final Comparator<DueItem> BITES_FIRST =
      Comparator.comparing((DueItem item) -> !item.reckoning().spent())
          .thenComparing(item -> item.state() != State.UNKNOWN)
          .thenComparing(AircraftStanding::lateness)
          .thenComparing(
              item -> item.reckoning().projectedOn(),
              Comparator.nullsLast(Comparator.naturalOrder()))
          .thenComparing(DueItem::title)
          .thenComparing(DueItem::requirementId);

  public AircraftStanding {
    items = List.copyOf(items);
  }

  static AircraftStanding of(AircraftSheet sheet, List<DueItem> items, List<Ground> grounds) {
    List<DueItem> sorted = items.stream().sorted(BITES_FIRST).toList();
    Standing standing = Standing.of(sorted, grounds, new InWords(sheet.shownAs()));
    return new AircraftStanding(sheet, standing, sorted);
  }

  private static int lateness(DueItem item) {
    return switch (item.state()) {
      case OVERDUE -> 0;
      case IN_TOLERANCE -> 1;
      case DUE -> 2;
      case AHEAD, SOON, UNKNOWN -> 3;
      case DONE -> 4;
    };
  }
}
