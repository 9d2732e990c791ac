package trestle.overview;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.reckoning.Counter;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Scale;
import trestle.reckoning.State;
import trestle.reckoning.Usage;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.standing.LastDone;
import trestle.web.Shown;

/**
 * A due item as a line of a table, all in words, so that a page only writes it down.
 *
 * @param wash "held" for one past its limit or not known, "limited" for one in its tolerance, or ""
 * @param about when it is expected, or why there is no date
 */
record DueRow(
    DueItem item,
    String title,
    String source,
    String every,
    String lastDone,
    String lastDoneOn,
    List<DueLine> lines,
    String wash,
    String state,
    String about) {

  static DueRow of(DueItem item, InWords words, LocalDate today) {
    return new DueRow(
        item,
        item.subject().isAircraft()
            ? item.title()
            : item.title() + " (" + item.subject().words() + ")",
        source(item),
        item.ruleWords(),
        lastDone(item.lastDone(), words),
        lastDoneOn(item.lastDone()),
        lines(item, words),
        wash(item),
        state(item),
        about(item, today));
  }

  public String link() {
    return item.link();
  }

  /** Where it is put on a work order; "" of what is none of a programme's: a deferral. */
  public String orderLink() {
    if (item.kind().equals("deferral") || item.subject().aircraftId() == null) {
      return "";
    }
    String component = item.subject().isAircraft() ? "" : item.subject().id().toString();
    return "/work-orders/new?aircraft="
        + item.subject().aircraftId()
        + "&item=requirement_"
        + item.requirementId()
        + "_"
        + component;
  }

  public UUID requirementId() {
    return item.requirementId();
  }

  /** "185.1 h or 2,310 days", for a list of what comes next. */
  public String left() {
    return lines.stream()
        .map(DueLine::left)
        .filter(left -> !left.isEmpty())
        .collect(Collectors.joining(" or "));
  }

  /** "about 6 Dec", "by 31 January 2027", "no date: rate not known". */
  public String when() {
    boolean byDate = item.controlling() != null && item.controlling().isByCalendar();
    boolean dated = item.reckoning().projectedOn() != null && !about.startsWith("now");
    return dated ? (byDate ? "until " : "about ") + about : about;
  }

  /** The seconds left on the hours limit with the least left; null where none is known. */
  public Long secondsLeft() {
    return least(item.reckoning(), false);
  }

  /** The days left on the calendar limit with the least left; null where none is known. */
  public Long daysLeft() {
    return least(item.reckoning(), true);
  }

  private static Long least(Outcome outcome, boolean byCalendar) {
    if (outcome instanceof LimitReckoning limit) {
      boolean asked = byCalendar ? limit.isByCalendar() : Counter.HOURS.equals(limit.counter());
      return asked && limit.remaining() != Scale.UNKNOWN ? limit.remaining() : null;
    }
    Long least = null;
    for (Outcome entry : ((Reckoning) outcome).entries()) {
      Long one = least(entry, byCalendar);
      if (one != null && (least == null || one < least)) {
        least = one;
      }
    }
    return least;
  }

  private static String source(DueItem item) {
    String force = item.force().word();
    String binding =
        item.forbidsAnyFlight() ? force : force + ", else " + new InWords(null).not(item.forbids());
    return item.sourceReference().isBlank() ? binding : item.sourceReference() + ", " + binding;
  }

  private static String lastDone(LastDone last, InWords words) {
    if (last == null) {
      return "never";
    }
    Usage usage = last.reading().usage();
    return usage
        .total(Counter.HOURS)
        .or(() -> usage.toMap().keySet().stream().findFirst().flatMap(usage::total))
        .map(words::used)
        .orElse("");
  }

  private static String lastDoneOn(LastDone last) {
    if (last == null) {
      return "";
    }
    String on = last.reading().on() == null ? "date not known" : Shown.date(last.reading().on());
    if (last.baseline()) {
      return on + ", where counting starts";
    }
    return last.coveredBy() == null ? on : on + ", with " + last.coveredBy();
  }

  private static List<DueLine> lines(DueItem item, InWords words) {
    List<DueLine> lines = new ArrayList<>();
    collect(item.reckoning(), item.controlling(), words, lines);
    return lines;
  }

  private static void collect(
      Outcome outcome, LimitReckoning controlling, InWords words, List<DueLine> lines) {
    if (outcome instanceof LimitReckoning limit) {
      lines.add(
          new DueLine(words.due(limit), words.left(limit), limit == controlling, limit.extended()));
    } else {
      ((Reckoning) outcome).entries().forEach(entry -> collect(entry, controlling, words, lines));
    }
  }

  private static String wash(DueItem item) {
    if (item.reckoning().spent() || item.state() == State.UNKNOWN) {
      return "held";
    }
    return item.state() == State.IN_TOLERANCE || item.state() == State.OVERDUE ? "limited" : "";
  }

  private static String state(DueItem item) {
    if (item.reckoning().spent()) {
      return "Past its limit";
    }
    return switch (item.state()) {
      case UNKNOWN -> item.missing().isEmpty() ? "Not known" : String.join(" ", item.missing());
      case OVERDUE -> "Overdue";
      case IN_TOLERANCE ->
          item.toleranceCondition().isBlank()
              ? "In its tolerance"
              : "In its tolerance: " + item.toleranceCondition();
      case DUE -> "Due now";
      case SOON -> "Soon";
      case DONE -> "Done";
      case AHEAD -> "";
    };
  }

  private static String about(DueItem item, LocalDate today) {
    LocalDate on = item.reckoning().projectedOn();
    if (item.state() == State.DONE) {
      return "";
    }
    if (on == null) {
      return item.rateUnknown() ? "no date: rate not known" : "no date";
    }
    String date = on.isAfter(today) ? Shown.day(on, today) : "now";
    return item.rateUnknown() ? date + "; the rate of one limit is not known" : date;
  }
}
