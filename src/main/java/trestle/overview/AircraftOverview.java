package trestle.overview;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.reckoning.State;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.standing.Standing;

/**
 * Everything the pages show of one aircraft in one view, put in words once, so that it is cheap to
 * show again and again.
 *
 * @param next the first few items that are no reason yet
 * @param rate the rate that dates by use rest on, in a sentence
 */
record AircraftOverview(
    AircraftSheet sheet,
    Standing standing,
    Strip strip,
    List<DueRow> rows,
    List<DueRow> next,
    Horizon horizon,
    String rate) {

  private static final int NEXT = 3;
  private static final int PEGS = 12;

  static AircraftOverview of(AircraftStanding standing, Strip strip, LocalDate day) {
    InWords words = new InWords(standing.sheet().shownAs());
    List<DueRow> rows = standing.items().stream().map(item -> DueRow.of(item, words, day)).toList();
    return new AircraftOverview(
        standing.sheet(),
        standing.standing(),
        strip,
        rows,
        rows.stream().filter(AircraftOverview::isAhead).limit(NEXT).toList(),
        Horizon.of(pegs(rows, day), day),
        rate(standing.items()));
  }

  public UUID id() {
    return sheet.id();
  }

  public String registration() {
    return sheet.registration();
  }

  public String link() {
    return "/aircraft/" + sheet.id();
  }

  /** How many items are not among those drawn. */
  public int undrawn() {
    return rows.size() - horizon.marks().size();
  }

  private static boolean isAhead(DueRow row) {
    return row.wash().isEmpty() && row.item().state() != State.DONE;
  }

  private static List<Peg> pegs(List<DueRow> rows, LocalDate day) {
    return rows.stream()
        .filter(row -> row.item().reckoning().projectedOn() != null)
        .limit(PEGS)
        .map(row -> peg(row, day))
        .toList();
  }

  private static Peg peg(DueRow row, LocalDate day) {
    DueItem item = row.item();
    LocalDate on = item.reckoning().projectedOn();
    boolean past = item.reckoning().spent() || item.state() == State.IN_TOLERANCE;
    String weight = row.wash().equals("held") ? "held" : past ? "limited" : "";
    boolean byDate = item.controlling() != null && item.controlling().isByCalendar();
    return new Peg(row.title(), on.isBefore(day) ? day : on, past, byDate, weight, row.about());
  }

  /** The rate that dates rest on: of the airframe, where an item of it says so. */
  private static String rate(List<DueItem> items) {
    for (DueItem item : items) {
      long rate = item.utilisation().rate(Counter.HOURS);
      if (item.subject().isAircraft() && rate != Scale.UNKNOWN) {
        String hours = BigDecimal.valueOf(rate, 4).setScale(2, RoundingMode.HALF_UP).toString();
        return "Dates by use are at " + hours + " h a day.";
      }
    }
    return "No rate of use is known: work due by use alone has no date.";
  }
}
