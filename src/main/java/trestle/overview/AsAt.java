package trestle.overview;

import java.time.LocalDate;
import java.util.List;
import java.util.function.Function;
import trestle.ledger.View;
import trestle.web.Form;
import trestle.web.Shown;

/**
 * Which day a page shows, and with whose knowledge: all that is known now ("as it truly was"), or
 * only what was filed by then ("as it was known then").
 *
 * @param day the last day whose facts count
 * @param knownThen whether only what was filed by the end of that day counts
 * @param known only what was filed up to this sequence of the ledger counts; or null
 */
public record AsAt(LocalDate day, LocalDate today, boolean knownThen, Long known) {
  /** The fields of the form that asks for it. */
  static final String DAY = "as-at";

  static final String KNOWN = "known";

  static AsAt now(LocalDate today) {
    return new AsAt(today, today, false, null);
  }

  /** Reads the form; what is wrong is noted in it, and then the page shows now. */
  static AsAt read(Form form, LocalDate today) {
    LocalDate day = form.optional(DAY, "As at").dateUpTo(today);
    boolean then = form.value(KNOWN).strip().equals("then");
    Long known = then ? null : form.optional(KNOWN, "Known up to record").count();
    return form.isOk() ? new AsAt(day == null ? today : day, today, then, known) : now(today);
  }

  /** Whether everything known now counts up to today: what may be kept in memory. */
  boolean isNow() {
    return day.equals(today) && known == null && !knownThen;
  }

  public boolean isPast() {
    return !isNow();
  }

  /**
   * @param sequenceThen the ledger's last sequence at the end of a day
   */
  View view(Function<LocalDate, Long> sequenceThen) {
    return new View(day, knownThen ? sequenceThen.apply(day) : known);
  }

  /** "12 March 2026, as it truly was: later corrections are in it". */
  public String words() {
    if (isNow()) {
      return Shown.weekday(day);
    }
    if (known != null) {
      return Shown.weekday(day) + ", as it was known at record " + Shown.count(known);
    }
    return Shown.weekday(day)
        + (knownThen
            ? ", as it was known then: what was filed later is left out"
            : ", as it truly was: what was filed and corrected later is in it");
  }

  /** The days above a horizon. */
  public List<Horizon.Tick> scale() {
    return Horizon.SCALE;
  }

  /** What a link to another page adds to keep showing this day: "?as-at=2026-03-12", or "". */
  public String query() {
    if (isNow()) {
      return "";
    }
    String query = "?" + DAY + "=" + day;
    if (knownThen) {
      return query + "&" + KNOWN + "=then";
    }
    return known == null ? query : query + "&" + KNOWN + "=" + known;
  }
}
