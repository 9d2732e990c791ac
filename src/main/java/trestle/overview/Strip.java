package trestle.overview;

import java.util.List;
import trestle.web.Total;

/**
 * What an aircraft has run, in words, and how old the figures are.
 *
 * @param hoursTo "Hours to the landing of 24 November 2026, 16:05, filed 24 November 2026, 18:12"
 * @param spread how unevenly it is flown; null where too little is known of it
 * @param openBreaks how many gaps and disputes nobody has explained yet
 */
record Strip(List<Total> totals, String hoursTo, Spread spread, int openBreaks) {
  static final Strip NONE = new Strip(List.of(), "No flight is recorded", null, 0);

  /** "2 gaps or disputes are open". */
  public String breakWords() {
    return openBreaks == 1
        ? "1 gap or dispute in the journey log is open"
        : openBreaks + " gaps or disputes in the journey log are open";
  }
}
