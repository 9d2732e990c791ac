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
        Horizon.of(pegs(rows, strip.spread(), day), day),
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

  private static List<Peg> pegs(List<DueRow> rows, Spread spread, LocalDate day) {
    return rows.stream()
        .filter(row -> row.item().reckoning().projectedOn() != null)
        .limit(PEGS)
        .map(row -> peg(row, spread, day))
        .toList();
  }

  private static Peg peg(DueRow row, Spread spread, LocalDate day) {
    DueItem item = row.item();
    LocalDate on = item.reckoning().projectedOn();
    boolean past = item.reckoning().spent() || item.state() == State.IN_TOLERANCE;
    String weight = row.wash().equals("held") ? "held" : past ? "limited" : "";
    Peg.Shape shape = shape(item);
    Peg peg = new Peg(row.title(), on.isBefore(day) ? day : on, past, shape, weight, row.about());
    Spread uneven = past || shape != Peg.Shape.USE ? null : unevenness(item, spread);
    if (uneven == null || item.controlling().remaining() <= 0) {
      return peg;
    }
    double left = item.controlling().remaining() / 3600.0;
    return peg.between(uneven.earliest(left, day), uneven.latest(left, day));
  }

  private static Peg.Shape shape(DueItem item) {
    if (item.kind().equals("deferral")) {
      return Peg.Shape.DEFERRAL;
    }
    boolean byDate = item.controlling() != null && item.controlling().isByCalendar();
    return byDate ? Peg.Shape.DATE : Peg.Shape.USE;
  }

  /** Known of hours alone, about the rate that the projection used. */
  private static Spread unevenness(DueItem item, Spread spread) {
    boolean byHours =
        item.controlling() != null && Counter.HOURS.equals(item.controlling().counter());
    long rate = item.utilisation().rate(Counter.HOURS);
    return spread == null || !byHours || rate == Scale.UNKNOWN || rate == 0
        ? null
        : spread.at(rate / 10_000.0);
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
