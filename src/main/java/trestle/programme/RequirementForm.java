package trestle.programme;

import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.fleet.Configuration;
import trestle.reckoning.Hours;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.standing.DueItem;
import trestle.standing.Force;
import trestle.web.Form;
import trestle.web.Option;

/** What a requirement says, as a person fills it in. */
final class RequirementForm {
  static final List<String> ORIGINS =
      List.of(Limit.LAST_DONE, Rules.NEW, Rules.OVERHAUL, Rules.FITTED, Rules.EFFECTIVE);

  private RequirementForm() {}

  /** A page with the usual beginnings. */
  static Form blank(LocalDate today) {
    return Form.blank()
        .with("kind", RequirementKind.INSPECTION.word())
        .with("subject", "aircraft")
        .with("force", Force.MANDATORY.word())
        .with("forbids", DueItem.ANY_FLIGHT)
        .with("limit-1-by", "use")
        .with("limit-1-counter", "hours")
        .with("in-force-from", today)
        .with("effective-on", today)
        .with("where", "present");
  }

  /** The usual beginnings of a life limit. */
  static Form limit(Form form) {
    return form.with("kind", RequirementKind.LIFE_LIMIT.word())
        .with("limit-1-from", Rules.NEW)
        .with("once", "yes");
  }

  /** The usual beginnings of a document that expires. */
  static Form document(Form form) {
    return form.with("kind", RequirementKind.DOCUMENT.word())
        .with("limit-1-by", "calendar")
        .with("limit-1-counter", "")
        .with("limit-1-every", "12 months")
        .with("limit-1-soon", "30 days");
  }

  /** A page filled in with what a requirement says now. */
  static Form of(Revision revision, LocalDate today) {
    Terms terms = revision.terms();
    Form form =
        Form.blank()
            .with("revises", revision.id())
            .with("title", terms.title())
            .with("kind", terms.kind().word())
            .with("force", terms.force().word())
            .with("forbids", terms.forbids())
            .with("tolerance-condition", terms.toleranceCondition())
            .with("tolerance-source", terms.toleranceSource())
            .with("source-reference", terms.sourceReference())
            .with("effective-on", terms.effectiveOn())
            .with("in-force-from", today)
            .with("labour", terms.labourMinutes() == null ? null : labour(terms.labourMinutes()))
            .with("downtime", terms.downtimeHours())
            .with("modification", terms.where().modification())
            .with("where", terms.where().present() ? "present" : "absent")
            .withAll("covers", terms.covers().stream().map(UUID::toString).toList());
    RuleForm.fill(form, terms.rule());
    return form;
  }

  /**
   * What was filled in, or null; the form then has the sentences.
   *
   * @param coverable the ids of the requirements that may be chosen as covered
   */
  static Terms read(Form form, Collection<String> coverable) {
    String title = form.required("title", "Title").text(120);
    String kind = form.required("kind", "Kind").choice(RequirementKind.words());
    String source = form.optional("source-reference", "Source").text(300);
    Rule rule = RuleForm.read(form);
    String toleranceCondition = form.optional("tolerance-condition", "Condition").text(200);
    String toleranceSource = form.optional("tolerance-source", "Text that gives it").text(300);
    Force force = form.required("force", "Force").choice(Force.class);
    String forbids = form.optional("forbids", "Once overdue it forbids").text(60);
    List<String> covers = form.optional("covers", "Covers").choices(coverable);
    LocalDate effectiveOn = form.required("effective-on", "Effective date").date();
    Hours labour = form.optional("labour", "Labour").hours();
    Integer downtime = form.optional("downtime", "Down for").count(100_000);
    Presence where = where(form);
    if (form.isBad() || rule == null) {
      return null;
    }
    return new Terms(
        title,
        RequirementKind.parse(kind),
        rule,
        effectiveOn,
        force,
        forbids == null ? DueItem.ANY_FLIGHT : forbids,
        covers.stream().map(UUID::fromString).toList(),
        orBlank(toleranceCondition),
        orBlank(toleranceSource),
        orBlank(source),
        labour == null ? null : (int) (labour.seconds() / 60),
        downtime,
        where);
  }

  private static Presence where(Form form) {
    String modification = form.optional("modification", "Modification").read(Configuration::code);
    String where = form.optional("where", "Where").choice("present", "absent");
    return modification == null
        ? Presence.ANYWHERE
        : new Presence(modification, !"absent".equals(where));
  }

  static List<Option> wheres() {
    return List.of(
        new Option("present", "where it is embodied"),
        new Option("absent", "where it is not embodied"));
  }

  static List<Option> kinds() {
    return Stream.of(RequirementKind.values())
        .map(kind -> new Option(kind.word(), kind.label()))
        .toList();
  }

  static List<Option> origins() {
    return List.of(
        new Option(Limit.LAST_DONE, "when last done"),
        new Option(Rules.NEW, "new"),
        new Option(Rules.OVERHAUL, "the last overhaul"),
        new Option(Rules.FITTED, "when fitted"),
        new Option(Rules.EFFECTIVE, "the effective date"));
  }

  static String orBlank(String text) {
    return text == null ? "" : text;
  }

  private static String labour(int minutes) {
    return new Hours(minutes * 60L).toString();
  }
}
