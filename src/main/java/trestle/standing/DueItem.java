package trestle.standing;

import java.util.List;
import java.util.UUID;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Rule;
import trestle.reckoning.State;
import trestle.reckoning.Usage;
import trestle.reckoning.Utilisation;

/**
 * One requirement on one subject, reckoned: what a due list shows a line of, and what an aircraft's
 * standing is told from.
 *
 * @param requirementId the requirement
 * @param revisionId its revision in force in the view
 * @param kind {@code inspection}, {@code service}, {@code life-limit}, {@code directive} …
 * @param forbids what may not be flown once it is spent: {@link #ANY_FLIGHT}, or words such as
 *     {@code hire}, {@code IFR}, {@code night}
 * @param coversOthers whether doing it counts as doing other requirements too
 * @param toleranceCondition the tolerance's own condition ("only to reach the place of work"), or
 *     ""
 * @param sourceReference where the requirement is written, or ""
 * @param labourMinutes estimated, or null
 * @param downtimeHours estimated, or null
 * @param rule what is reckoned
 * @param ruleWords the rule in short English
 * @param lastDone the latest doing, else the baseline, else null
 * @param usage the subject's totals now; a counter that is not listed is not known
 * @param utilisation the rates a day that the projection used
 * @param extensions those that stand for the occurrence that is due next
 * @param missing what is not known, in whole sentences; empty unless the state is unknown in part
 * @param link the page of the requirement as seen for this subject
 */
public record DueItem(
    UUID requirementId,
    UUID revisionId,
    Subject subject,
    String title,
    String kind,
    Force force,
    String forbids,
    boolean coversOthers,
    String toleranceCondition,
    String sourceReference,
    Integer labourMinutes,
    Integer downtimeHours,
    Rule rule,
    String ruleWords,
    LastDone lastDone,
    Usage usage,
    Utilisation utilisation,
    List<Granted> extensions,
    List<String> missing,
    Reckoning reckoning,
    String link) {

  public static final String ANY_FLIGHT = "any flight";

  public DueItem {
    extensions = List.copyOf(extensions);
    missing = List.copyOf(missing);
  }

  public State state() {
    return reckoning.state();
  }

  public boolean forbidsAnyFlight() {
    return forbids.equals(ANY_FLIGHT);
  }

  public boolean isMandatory() {
    return force == Force.MANDATORY;
  }

  /** The limit that will bite first, or null when the work is done for good. */
  public LimitReckoning controlling() {
    return reckoning.controllingLimit();
  }

  /** Whether a limit's date is missing from the projection because no rate is known for it. */
  public boolean rateUnknown() {
    return reckoning.lacksRate();
  }
}
