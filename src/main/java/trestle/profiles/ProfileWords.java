package trestle.profiles;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import trestle.profiles.RuleProfile.ClockBase;
import trestle.profiles.RuleProfile.Deferring;
import trestle.profiles.RuleProfile.MonthRule;
import trestle.profiles.RuleProfile.Route;
import trestle.profiles.RuleProfile.Tolerance;
import trestle.profiles.RuleProfile.Untriaged;
import trestle.reckoning.DeferralExtension;
import trestle.reckoning.Hours;
import trestle.reckoning.Interval;
import trestle.web.Role;
import trestle.web.Shown;

/** What a profile says, in words for a page. */
final class ProfileWords {

  /**
   * One part of a profile.
   *
   * @param source where it comes from, while it is as in a shipped example; else null
   */
  record Part(String label, List<String> lines, Example.Source source) {}

  private final RuleProfile profile;
  private final Example example;
  private final List<Part> parts = new ArrayList<>();

  private ProfileWords(RuleProfile profile, Example example) {
    this.profile = profile;
    this.example = example;
  }

  /**
   * @param example whose sources are told with the parts that are as it has them, or null
   */
  static List<Part> of(RuleProfile profile, Example example) {
    ProfileWords words = new ProfileWords(profile, example);
    words.intervals();
    words.defects();
    words.papers();
    return words.parts;
  }

  private void intervals() {
    add("monthRule", "A limit in months", monthRule(profile));
    add(
        "countsFrom",
        "The next interval counts",
        profile.countsFrom() == RuleProfile.CountsFrom.SIGNED
            ? "from when the inspection is signed"
            : "from the " + profile.words().release());
    add(
        "tolerances",
        "Tolerances on offer",
        orNone(profile.tolerances().stream().map(ProfileWords::tolerance).toList()));
  }

  static String monthRule(RuleProfile profile) {
    return profile.monthRule() == MonthRule.MONTH_END
        ? "runs to the last day of its month"
        : "runs to the same day of the month, else its last";
  }

  static String tolerance(Tolerance one) {
    String amount =
        one.counter().isEmpty()
            ? period(one.amount())
            : one.counter().equals("hours")
                ? Shown.exact(Hours.parse(one.amount())) + " h"
                : one.amount() + " " + one.counter();
    String late =
        one.late().equals("keep-schedule")
            ? "the next is due as if it had been in time"
            : "the next counts from when it was done";
    return one.label()
        + ": "
        + amount
        + ", "
        + late
        + (one.condition().isBlank() ? "" : "; " + one.condition());
  }

  private static String period(String text) {
    Interval period = Interval.parse(text);
    List<String> words = new ArrayList<>();
    if (period.allMonths() > 0) {
      words.add(Shown.plural(period.allMonths(), "month"));
    }
    if (period.allDays() > 0) {
      words.add(Shown.plural(period.allDays(), "day"));
    }
    return String.join(" and ", words);
  }

  private void defects() {
    add(
        "untriaged",
        "A report nobody has triaged",
        profile.untriaged() == Untriaged.HOLDS
            ? "holds the aircraft"
            : "limits the aircraft, unless its reporter says it must not fly");
    add(
        "deferring",
        "Who may defer",
        profile.deferring().stream().map(ProfileWords::deferring).toList());
    add(
        "clockBase",
        "Days of a deferral",
        profile.clockBase() == ClockBase.UTC
            ? "are counted in UTC"
            : "are counted in the operator’s local time");
    add("deferralExtension", "Extensions of a deferral", extension(profile.deferralExtension()));
    add(
        "extensionNoticeHours",
        "The authority is told of one",
        profile.extensionNoticeHours() == null
            ? "no hours are set"
            : "within " + Shown.plural(profile.extensionNoticeHours(), "hour"));
    add(
        "repeatWithinDays",
        "An earlier defect may have come back",
        "within "
            + Shown.plural(profile.repeatWithinDays(), "day")
            + " or "
            + Shown.plural(profile.repeatWithinFlights(), "flight"));
    add(
        "reportRecipients",
        "Occurrences are reported",
        orNone(
            profile.reportRecipients().stream()
                .map(
                    one ->
                        one.kind()
                            + ": to "
                            + one.to()
                            + (one.hours() == null
                                ? ""
                                : ", within " + Shown.plural(one.hours(), "hour")))
                .toList()));
  }

  static String route(Route route) {
    return route == Route.MINIMUM_EQUIPMENT_LIST
        ? "by an item of the minimum equipment list"
        : "without a list";
  }

  private static String deferring(Deferring one) {
    return route(one.route())
        + ": "
        + (one.by().isEmpty()
            ? "nobody, this route is refused"
            : one.by().stream().map(Role::word).sorted().collect(Collectors.joining(" or ")));
  }

  private static String extension(DeferralExtension extension) {
    if (extension.categories().isEmpty() || extension.times() == 0) {
      return "none";
    }
    String categories =
        extension.categories().stream().map(Enum::name).sorted().collect(Collectors.joining(", "));
    return "category "
        + categories
        + ", "
        + (extension.times() == 1 ? "once" : Shown.plural(extension.times(), "time"))
        + ", by no more than its own interval";
  }

  private void papers() {
    add(
        "words",
        "Names",
        List.of(
            "who releases: " + profile.words().engineer(),
            "what they hold: " + profile.words().licence(),
            "the release: " + profile.words().release(),
            "the list: " + profile.words().list()));
    add(
        "statements",
        "Statements",
        List.of(
            "Release: " + profile.statements().release(),
            "Inspection: " + profile.statements().inspection(),
            "Not airworthy: " + profile.statements().notAirworthy(),
            "Progressive inspection: "
                + (profile.statements().progressive().isEmpty()
                    ? "none"
                    : profile.statements().progressive()),
            "Pre-flight: " + profile.statements().preFlight(),
            "Acceptance: " + profile.statements().acceptance()));
    add(
        "acceptanceNeedsLicence",
        "A pilot’s acceptance",
        profile.acceptanceNeedsLicence() ? "carries a licence number" : "needs no licence number");
    add(
        "partsEvidence",
        "Parts come with",
        orNone(
            profile.partsEvidence().stream()
                .map(one -> one.partClass() + ": " + one.evidence())
                .toList()));
    add(
        "pilotTasks",
        "Pilots’ own work",
        profile.pilotTasks().isEmpty() ? List.of("none is allowed") : profile.pilotTasks());
    add(
        "lateEntryDays",
        "A release is entered",
        profile.lateEntryDays() == null
            ? "before the next flight; no days are set"
            : "within " + Shown.plural(profile.lateEntryDays(), "day") + " of the work");
    add(
        "retentionMonths",
        "Records are kept",
        "at least "
            + Shown.plural(profile.retentionMonths(), "month")
            + "; nothing filed is purged here");
  }

  private static List<String> orNone(List<String> lines) {
    return lines.isEmpty() ? List.of("none") : lines;
  }

  private void add(String member, String label, String line) {
    add(member, label, List.of(line));
  }

  private void add(String member, String label, List<String> lines) {
    boolean asShipped =
        example != null
            && ProfileJson.tree(profile)
                .get(member)
                .equals(ProfileJson.tree(example.profile()).get(member));
    parts.add(new Part(label, lines, asShipped ? example.sources().get(member) : null));
  }
}
