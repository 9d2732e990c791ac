package trestle.web;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import trestle.ledger.View;

/**
 * "As at" on a page that is read: which day it shows, and with whose knowledge: all that is known
 * now ("as it truly was"), or only what was filed by then ("as it was known then").
 *
 * @param form what was asked for: {@code as-at} (a day), and {@code known} ({@code then}, blank, or
 *     the number of a ledger line: known up to there); what can't be read is noted in it, and then
 *     the page shows now
 * @param view what to read
 * @param knownThen whether only what was filed by the end of the day counts
 */
public record AsAt(Form form, LocalDate today, View view, boolean knownThen) {
  private static final String DAY = "as-at";
  private static final String KNOWN = "known";
  private static final String THEN = "then";

  /**
   * @param knownOn gives the last ledger sequence that was known at the end of a day
   */
  public static AsAt of(Form form, LocalDate today, Function<LocalDate, Long> knownOn) {
    LocalDate day = form.optional(DAY, "As at").dateUpTo(today);
    boolean then = form.value(KNOWN).strip().equals(THEN);
    Long known = then ? null : form.optional(KNOWN, "Known up to record").count();
    if (form.isBad()) {
      return new AsAt(form, today, View.asAt(today), false);
    }
    LocalDate shown = day == null ? today : day;
    return new AsAt(form, today, new View(shown, then ? knownOn.apply(shown) : known), then);
  }

  public static AsAt now(LocalDate today) {
    return on(today, today);
  }

  /** As it truly was on a day. */
  public static AsAt on(LocalDate day, LocalDate today) {
    return new AsAt(Form.blank(), today, View.asAt(day), false);
  }

  public LocalDate day() {
    return view.upTo();
  }

  /** Whether everything known now counts up to today: what may be kept in memory. */
  public boolean isNow() {
    return view.equals(View.asAt(today));
  }

  /** Whether it is another day than today, or what was known another day. */
  public boolean isPast() {
    return !isNow();
  }

  /** How the page answers: 400 where what was asked for could not be read. */
  public int status() {
    return form.isOk() ? 200 : 400;
  }

  /** "Thursday, 12 March 2026, as it truly was: what was filed and corrected later is in it". */
  public String words() {
    if (isNow()) {
      return Shown.weekday(day());
    }
    if (knownThen) {
      return Shown.weekday(day()) + ", as it was known then: what was filed later is left out";
    }
    return Shown.weekday(day())
        + (view.knowsEverything()
            ? ", as it truly was: what was filed and corrected later is in it"
            : ", as it was known at record " + Shown.count(view.knownTo()));
  }

  /** What a link to another page adds to keep showing this day: "?as-at=2026-03-12", or "". */
  public String query() {
    return isNow() ? "" : "?" + fields();
  }

  /** The same for a link that has a query already: "&amp;as-at=2026-03-12", or "". */
  public String andQuery() {
    return isNow() ? "" : "&" + fields();
  }

  private String fields() {
    String known = knownThen ? THEN : view.knowsEverything() ? null : view.knownTo().toString();
    return DAY + "=" + day() + (known == null ? "" : "&" + KNOWN + "=" + known);
  }

  public List<Option> options() {
    List<Option> options = new ArrayList<>();
    options.add(new Option("", "as it truly was, later corrections in it"));
    options.add(new Option(THEN, "as it was known then"));
    if (!view.knowsEverything() && !knownThen) {
      String known = view.knownTo().toString();
      options.add(new Option(known, "as it was known at record " + Shown.count(view.knownTo())));
    }
    return options;
  }
}
