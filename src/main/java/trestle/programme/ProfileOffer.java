package trestle.programme;

import java.util.List;
import java.util.stream.IntStream;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfile.Tolerance;
import trestle.reckoning.Interval;
import trestle.web.Form;
import trestle.web.Option;

/**
 * What the rule profile in force offers to whoever writes a requirement: tolerances to choose from,
 * and its month rule wherever none is chosen.
 */
record ProfileOffer(RuleProfile profile) {
  static final String CHOSEN = "tolerance-offered";
  private static final List<String> ROWS =
      List.of("limit-1-", "limit-2-", "limit-3-", "initial-1-", "initial-2-", "initial-3-");

  public List<Option> tolerances() {
    return IntStream.range(0, profile.tolerances().size())
        .mapToObj(i -> new Option(Integer.toString(i), profile.tolerances().get(i).words()))
        .toList();
  }

  /** "runs to the last day of its month". */
  public String months() {
    return profile.monthWords();
  }

  /** Fills in what was chosen and what goes without saying, before the form is read. */
  void fill(Form form) {
    months(form);
    String chosen =
        form.optional(CHOSEN, "Tolerance on offer")
            .choice(tolerances().stream().map(Option::value).toList());
    if (chosen != null) {
      tolerance(form, profile.tolerances().get(Integer.parseInt(chosen)));
    }
  }

  private void months(Form form) {
    for (String row : ROWS) {
      if (form.value(row + "ends").isBlank() && isWholeMonths(form, row)) {
        form.with(row + "ends", profile.monthRule().ends().word());
      }
    }
  }

  private static boolean isWholeMonths(Form form, String row) {
    try {
      return form.value(row + "by").equals("calendar")
          && Period.parse(form.value(row + "every")).isWholeMonths();
    } catch (IllegalArgumentException e) {
      // The limit itself says what is wrong with it.
      return false;
    }
  }

  /** In the first limit that counts in its unit and has no tolerance yet. */
  private static void tolerance(Form form, Tolerance offered) {
    for (String row : ROWS) {
      if (counts(form, row, offered) && form.value(row + "tolerance").isBlank()) {
        form.with(row + "tolerance", amount(offered)).with(row + "late", offered.late());
        if (form.value("tolerance-condition").isBlank()) {
          form.with("tolerance-condition", offered.condition());
        }
        form.with(CHOSEN, "");
        return;
      }
    }
    form.fail(
        CHOSEN,
        "Tolerance on offer needs a limit that counts in "
            + (offered.counter().isEmpty() ? "months or days" : offered.counter())
            + " and has no tolerance of its own yet.");
  }

  private static boolean counts(Form form, String row, Tolerance offered) {
    if (offered.counter().isEmpty()) {
      return form.value(row + "by").equals("calendar");
    }
    String counter = form.value(row + "counter").strip().replace(' ', '-');
    return form.value(row + "by").equals("use")
        && (counter.isEmpty() ? "hours" : counter).equals(offered.counter());
  }

  private static String amount(Tolerance offered) {
    return offered.counter().isEmpty()
        ? Period.text(Interval.parse(offered.amount()))
        : offered.amount();
  }
}
