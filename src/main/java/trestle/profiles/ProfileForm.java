package trestle.profiles;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import trestle.profiles.RuleProfile.ClockBase;
import trestle.profiles.RuleProfile.CountsFrom;
import trestle.profiles.RuleProfile.Deferring;
import trestle.profiles.RuleProfile.MonthRule;
import trestle.profiles.RuleProfile.PartEvidence;
import trestle.profiles.RuleProfile.ReportRecipient;
import trestle.profiles.RuleProfile.Route;
import trestle.profiles.RuleProfile.Statements;
import trestle.profiles.RuleProfile.Tolerance;
import trestle.profiles.RuleProfile.Untriaged;
import trestle.profiles.RuleProfile.Words;
import trestle.reckoning.Counter;
import trestle.reckoning.DeferralClock.Category;
import trestle.reckoning.DeferralExtension;
import trestle.reckoning.Interval;
import trestle.web.Form;
import trestle.web.Role;

/** What a profile says, as a person fills it in. */
final class ProfileForm {
  static final String BY_CALENDAR = "calendar";

  /** How many lines of a list a page has at most. */
  private static final int MOST_LINES = 8;

  private static final List<String> DEFERRERS = List.of(Role.ENGINEER.word(), Role.PILOT.word());

  private ProfileForm() {}

  /** The page filled in with what a profile says now. */
  static Form of(RuleProfile profile) {
    Form form =
        Form.blank()
            .with("name", profile.name())
            .with("document", profile.document())
            .with("month-rule", profile.monthRule().word())
            .with("counts-from", profile.countsFrom().word())
            .with("untriaged", profile.untriaged().word())
            .with("clock-base", profile.clockBase().word())
            .withAll(
                "extend",
                profile.deferralExtension().categories().stream().map(Enum::name).toList())
            .with("extend-times", profile.deferralExtension().times())
            .with("extend-notice", profile.extensionNoticeHours())
            .with("repeat-days", profile.repeatWithinDays())
            .with("repeat-flights", profile.repeatWithinFlights())
            .with("late-entry", profile.lateEntryDays())
            .with("retention", profile.retentionMonths())
            .with("pilot-tasks", String.join("\n", profile.pilotTasks()));
    for (Deferring one : profile.deferring()) {
      form.withAll(one.route().word(), one.by().stream().map(Role::word).toList());
    }
    if (profile.acceptanceNeedsLicence()) {
      form.with("acceptance-licence", "yes");
    }
    words(form, profile);
    lists(form, profile);
    return form;
  }

  private static void words(Form form, RuleProfile profile) {
    form.with("word-engineer", profile.words().engineer())
        .with("word-licence", profile.words().licence())
        .with("word-release", profile.words().release())
        .with("word-list", profile.words().list())
        .with("statement-release", profile.statements().release())
        .with("statement-inspection", profile.statements().inspection())
        .with("statement-not-airworthy", profile.statements().notAirworthy())
        .with("statement-progressive", profile.statements().progressive())
        .with("statement-pre-flight", profile.statements().preFlight())
        .with("statement-acceptance", profile.statements().acceptance());
  }

  private static void lists(Form form, RuleProfile profile) {
    int line = 1;
    for (Tolerance one : profile.tolerances()) {
      form.with("tolerance-label-" + line, one.label())
          .with("tolerance-by-" + line, one.counter().isEmpty() ? BY_CALENDAR : one.counter())
          .with("tolerance-amount-" + line, one.amount())
          .with("tolerance-late-" + line, one.late())
          .with("tolerance-condition-" + line++, one.condition());
    }
    line = 1;
    for (PartEvidence one : profile.partsEvidence()) {
      form.with("part-class-" + line, one.partClass())
          .with("part-evidence-" + line++, one.evidence());
    }
    line = 1;
    for (ReportRecipient one : profile.reportRecipients()) {
      form.with("report-kind-" + line, one.kind())
          .with("report-to-" + line, one.to())
          .with("report-hours-" + line++, one.hours());
    }
  }

  /** The numbers of the lines that a page shows of a list: those filled in, and one more. */
  static List<Integer> lines(Form form, String first) {
    int filled =
        IntStream.rangeClosed(1, MOST_LINES)
            .filter(line -> !form.value(first + "-" + line).isBlank())
            .max()
            .orElse(0);
    return IntStream.rangeClosed(1, Math.min(filled + 1, MOST_LINES)).boxed().toList();
  }

  /** What was filled in, or null; the form then has the sentences. */
  static RuleProfile read(Form form) {
    String name = form.required("name", "Name").text(80);
    String document = form.optional("document", "Approved document").text(200);
    MonthRule monthRule = form.required("month-rule", "A limit in months").choice(MonthRule.class);
    CountsFrom countsFrom =
        form.required("counts-from", "The next interval").choice(CountsFrom.class);
    List<Tolerance> tolerances = tolerances(form);
    Untriaged untriaged = form.required("untriaged", "A report").choice(Untriaged.class);
    List<Deferring> deferring =
        Stream.of(Route.values()).map(route -> deferring(form, route)).toList();
    ClockBase base = form.required("clock-base", "Days").choice(ClockBase.class);
    Set<Category> categories = new HashSet<>();
    form.optional("extend", "Extensions").choices(List.of("B", "C", "D")).stream()
        .map(Category::valueOf)
        .forEach(categories::add);
    Integer times = form.required("extend-times", "Times").count(9);
    Integer notice = form.optional("extend-notice", "Notice").count(10_000);
    Integer days = form.required("repeat-days", "Days").count(3650);
    Integer flights = form.required("repeat-flights", "Flights").count(10_000);
    List<PartEvidence> evidence = evidence(form);
    Words words = readWords(form);
    Statements statements = statements(form);
    Integer late = form.optional("late-entry", "Late entry").count(3650);
    Integer retention = form.required("retention", "Kept for").count(1200);
    List<ReportRecipient> recipients = recipients(form);
    List<String> pilotTasks = pilotTasks(form);
    if (form.isBad()) {
      return null;
    }
    return new RuleProfile(
        name,
        orBlank(document),
        monthRule,
        tolerances,
        untriaged,
        deferring,
        base,
        new DeferralExtension(categories, times),
        notice,
        days,
        flights,
        evidence,
        words,
        statements,
        form.checked("acceptance-licence"),
        countsFrom,
        late,
        retention,
        recipients,
        pilotTasks);
  }

  /** One a row. */
  private static List<String> pilotTasks(Form form) {
    String typed = orBlank(form.optional("pilot-tasks", "Pilots’ own work").lines(6_000));
    List<String> tasks =
        typed.lines().map(String::strip).filter(row -> !row.isEmpty()).distinct().toList();
    if (tasks.stream().anyMatch(task -> task.length() > PilotTask.MOST_LETTERS)) {
      form.fail(
          "pilot-tasks",
          "Pilots’ own work must have at most " + PilotTask.MOST_LETTERS + " characters a row.");
    }
    return tasks;
  }

  private static Deferring deferring(Form form, Route route) {
    List<Role> by =
        form.optional(route.word(), "Deferring").choices(DEFERRERS).stream()
            .map(Role::parse)
            .toList();
    return new Deferring(route, by);
  }

  private static Words readWords(Form form) {
    return new Words(
        form.required("word-engineer", "Who releases").text(60),
        form.required("word-licence", "What they hold").text(60),
        form.required("word-release", "The release").text(60),
        form.required("word-list", "The list").text(60));
  }

  private static Statements statements(Form form) {
    return new Statements(
        form.required("statement-release", "Release").lines(1000),
        form.required("statement-inspection", "Inspection").lines(1000),
        form.required("statement-not-airworthy", "Not airworthy").lines(1000),
        orBlank(form.optional("statement-progressive", "Progressive inspection").lines(1000)),
        form.required("statement-pre-flight", "Pre-flight").lines(1000),
        form.required("statement-acceptance", "Acceptance").lines(1000));
  }

  private static List<Tolerance> tolerances(Form form) {
    List<Tolerance> all = new ArrayList<>();
    for (int line = 1; line <= MOST_LINES; line++) {
      if (isBlank(form, line, "tolerance-label-", "tolerance-amount-", "tolerance-condition-")) {
        continue;
      }
      String label = form.required("tolerance-label-" + line, "Tolerance " + line).text(80);
      String by =
          form.required("tolerance-by-" + line, "By " + line)
              .choice(BY_CALENDAR, "hours", "landings", "cycles");
      String counter = by == null || by.equals(BY_CALENDAR) ? "" : by;
      String amount =
          form.required("tolerance-amount-" + line, "Amount " + line)
              .read(typed -> amount(counter, typed));
      String late =
          form.required("tolerance-late-" + line, "Done late " + line)
              .choice("restart", "keep-schedule");
      String condition =
          form.optional("tolerance-condition-" + line, "Condition " + line).text(200);
      all.add(new Tolerance(orBlank(label), counter, amount, late, orBlank(condition)));
    }
    return all;
  }

  private static String amount(String counter, String typed) {
    return counter.isEmpty()
        ? Interval.parse(typed).toString()
        : Counter.parse(counter).amount(typed).toString();
  }

  private static List<PartEvidence> evidence(Form form) {
    List<PartEvidence> all = new ArrayList<>();
    for (int line = 1; line <= MOST_LINES; line++) {
      if (!isBlank(form, line, "part-class-", "part-evidence-")) {
        all.add(
            new PartEvidence(
                form.required("part-class-" + line, "Class " + line).text(60),
                form.required("part-evidence-" + line, "Evidence " + line).text(200)));
      }
    }
    return all;
  }

  private static List<ReportRecipient> recipients(Form form) {
    List<ReportRecipient> all = new ArrayList<>();
    for (int line = 1; line <= MOST_LINES; line++) {
      if (!isBlank(form, line, "report-kind-", "report-to-", "report-hours-")) {
        all.add(
            new ReportRecipient(
                form.required("report-kind-" + line, "Kind " + line).text(60),
                form.required("report-to-" + line, "To whom " + line).text(200),
                form.optional("report-hours-" + line, "Hours " + line).count(10_000)));
      }
    }
    return all;
  }

  private static boolean isBlank(Form form, int line, String... names) {
    return Stream.of(names).allMatch(name -> form.value(name + line).isBlank());
  }

  private static String orBlank(String text) {
    return text == null ? "" : text;
  }
}
