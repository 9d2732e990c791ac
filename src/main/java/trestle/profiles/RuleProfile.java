package trestle.profiles;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.annotation.JsonValue;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import trestle.reckoning.DeferralExtension;
import trestle.reckoning.Limit;
import trestle.web.Role;

/**
 * The rules an aircraft's records are judged by, where authorities and operators differ.
 *
 * @param name what the operator calls it
 * @param document the operator's approved document that it was taken from; "" while it is still a
 *     shipped example
 * @param monthRule to which day a limit in months runs
 * @param tolerances those on offer where a requirement is written
 * @param untriaged what a defect does that nobody has triaged yet and that its reporter thinks can
 *     fly
 * @param deferring by which routes a defect may be deferred, and by whom
 * @param clockBase in which time the days of a deferral are counted; fixed once
 * @param deferralExtension which deferrals may be extended, how often
 * @param extensionNoticeHours within how many hours the authority is told of an extension; null
 *     where that is not known or not asked for
 * @param repeatWithinDays how far back an earlier defect may be one that came back
 * @param repeatWithinFlights the same in flights
 * @param partsEvidence what must come with a part of each class
 * @param words the names of people and papers
 * @param statements the sentences that are signed
 * @param acceptanceNeedsLicence whether a pilot's acceptance carries a licence number
 * @param countsFrom from when the next interval counts: the inspection signed, or the release
 * @param lateEntryDays within how many days of the work its release must be entered; null for none
 * @param retentionMonths how long detailed records are kept at least
 * @param reportRecipients whom occurrences are reported to, and how soon
 * @param pilotTasks what pilots may do and sign themselves on an aircraft that is not flown for
 *     hire; none: they may do nothing. Null, of a profile filed before it could be said: the usual
 *     list
 */
public record RuleProfile(
    String name,
    String document,
    MonthRule monthRule,
    List<Tolerance> tolerances,
    Untriaged untriaged,
    List<Deferring> deferring,
    ClockBase clockBase,
    DeferralExtension deferralExtension,
    Integer extensionNoticeHours,
    int repeatWithinDays,
    int repeatWithinFlights,
    List<PartEvidence> partsEvidence,
    Words words,
    Statements statements,
    boolean acceptanceNeedsLicence,
    CountsFrom countsFrom,
    Integer lateEntryDays,
    int retentionMonths,
    List<ReportRecipient> reportRecipients,
    List<String> pilotTasks) {

  public RuleProfile {
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(document, "document");
    tolerances = List.copyOf(tolerances);
    deferring = List.copyOf(deferring);
    partsEvidence = List.copyOf(partsEvidence);
    reportRecipients = List.copyOf(reportRecipients);
    pilotTasks = pilotTasks == null ? PilotTask.labels() : List.copyOf(pilotTasks);
  }

  /** Whether it is still a shipped example, and not yet the operator's own. */
  @JsonIgnore
  public boolean example() {
    return document.isBlank();
  }

  /** The routes by which anybody may defer. */
  public List<Route> routes() {
    return deferring.stream().filter(one -> !one.by().isEmpty()).map(Deferring::route).toList();
  }

  /** Who may defer by a route; nobody where the route is not allowed. */
  public Set<Role> mayDefer(Route route) {
    return deferring.stream()
        .filter(one -> one.route() == route)
        .findFirst()
        .map(one -> Set.copyOf(one.by()))
        .orElse(Set.of());
  }

  public boolean allows(Route route) {
    return !mayDefer(route).isEmpty();
  }

  /** What a limit in months does by it: "runs to the last day of its month". */
  public String monthWords() {
    return ProfileWords.monthRule(this);
  }

  /** The same with the days of deferrals counted in another time. */
  RuleProfile counting(ClockBase base) {
    return new RuleProfile(
        name,
        document,
        monthRule,
        tolerances,
        untriaged,
        deferring,
        base,
        deferralExtension,
        extensionNoticeHours,
        repeatWithinDays,
        repeatWithinFlights,
        partsEvidence,
        words,
        statements,
        acceptanceNeedsLicence,
        countsFrom,
        lateEntryDays,
        retentionMonths,
        reportRecipients,
        pilotTasks);
  }

  /** A word of a closed list, as files, forms and the database write it. */
  public interface Word {
    String name();

    @JsonValue
    default String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /** To which day a limit in months runs. */
  public enum MonthRule implements Word {
    MONTH_END,
    ANNIVERSARY;

    public Limit.Ends ends() {
      return this == MONTH_END ? Limit.Ends.MONTH_END : Limit.Ends.ANNIVERSARY;
    }
  }

  public enum Untriaged implements Word {
    HOLDS,
    LIMITS
  }

  public enum ClockBase implements Word {
    UTC,
    LOCAL
  }

  public enum CountsFrom implements Word {
    SIGNED,
    RELEASED
  }

  /**
   * How a defect may be put off: by an item of a minimum equipment list, or without such a list.
   */
  public enum Route implements Word {
    MINIMUM_EQUIPMENT_LIST,
    NO_LIST
  }

  /**
   * A route, and who may defer by it; by nobody where the route is refused.
   *
   * @param by engineers, pilots
   */
  public record Deferring(Route route, List<Role> by) {
    public Deferring {
      by = List.copyOf(by);
    }
  }

  /**
   * A tolerance on offer.
   *
   * @param counter {@code hours} or another counter, or "" for one by the calendar
   * @param amount of that counter, or a period such as {@code P1M}
   * @param late from where the next interval counts: {@code restart} or {@code keep-schedule}
   * @param condition what it may be used for, or ""
   */
  public record Tolerance(
      String label, String counter, String amount, String late, String condition) {

    /** In a sentence without its full stop. */
    public String words() {
      return ProfileWords.tolerance(this);
    }
  }

  public record PartEvidence(String partClass, String evidence) {}

  /**
   * @param engineer such as "licensed engineer"
   * @param licence such as "licence"
   * @param release such as "release to service"
   * @param list such as "minimum equipment list"
   */
  public record Words(String engineer, String licence, String release, String list) {}

  /**
   * What is signed, in whole sentences. In those of an inspection {@code [inspection]} and {@code
   * [date]} are filled in; in that of a progressive one {@code [routine]}, {@code [detailed]} and
   * {@code [verdict]}.
   *
   * @param progressive of an inspection by a progressive programme; "" where there is none
   */
  public record Statements(
      String release,
      String inspection,
      String notAirworthy,
      String progressive,
      String preFlight,
      String acceptance) {

    public Statements {
      progressive = progressive == null ? "" : progressive;
    }
  }

  /**
   * @param hours within how many hours; null where that is not known
   */
  public record ReportRecipient(String kind, String to, Integer hours) {}
}
