package trestle.web;

import jakarta.ws.rs.core.MultivaluedMap;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Function;
import trestle.ledger.View;

/**
 * "As at" on a page that is read: a small form of its query, and the view it asks for. A day that
 * can't be read is told at the field, and the page shows today.
 *
 * @param form the fields {@code as-at} (a day) and {@code known} ({@code then} or blank)
 * @param view what to read
 * @param past whether it is another day than today, or what was known another day
 */
public record AsAt(Form form, View view, boolean past) {
  public static final List<Option> AS =
      List.of(
          new Option("", "as it truly was, later corrections in it"),
          new Option("then", "as it was known then"));

  /**
   * @param knownOn gives the last ledger sequence that was known at the end of a day
   */
  public static AsAt of(
      MultivaluedMap<String, String> query, LocalDate today, Function<LocalDate, Long> knownOn) {
    Form form = Form.of(query);
    LocalDate day = form.optional("as-at", "As at").dateUpTo(today);
    boolean known = "then".equals(form.optional("known", "Seen").choice("then"));
    if (day == null || form.isBad()) {
      return new AsAt(form, View.asAt(today), false);
    }
    return new AsAt(form, new View(day, known ? knownOn.apply(day) : null), true);
  }

  /** "As at 12 March 2026, as it was known then", or "" for now. */
  public String words() {
    if (!past) {
      return "";
    }
    return "As at "
        + Shown.date(view.upTo())
        + (view.knowsEverything() ? ", as far as is known now" : ", as it was known then");
  }

  public List<Option> options() {
    return AS;
  }
}
