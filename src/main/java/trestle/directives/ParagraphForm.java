package trestle.directives;

import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Configuration;
import trestle.programme.RuleForm;
import trestle.reckoning.Rule;
import trestle.standing.DueItem;
import trestle.web.Form;
import trestle.web.Option;

/** One paragraph, as a person fills it in. */
final class ParagraphForm {
  static final List<Option> ABOUT =
      List.of(
          new Option("aircraft", "Aircraft of these types"),
          new Option("component", "Parts of these part numbers"));
  static final List<Option> PRESENT =
      List.of(
          new Option("yes", "where it was carried out"),
          new Option("no", "where it was not carried out"));

  private ParagraphForm() {}

  static Form blank() {
    return Form.blank()
        .with("about", "aircraft")
        .with("serials", "all")
        .with("forbids", DueItem.ANY_FLIGHT)
        .with("limit-1-by", "use")
        .with("limit-1-counter", "hours");
  }

  static Form of(ParagraphSheet paragraph) {
    Form form =
        Form.blank()
            .with("revises", paragraph.rowId())
            .with("label", paragraph.label())
            .with("title", paragraph.title())
            .with("about", paragraph.applicability().about().word())
            .with("names", String.join("\n", paragraph.applicability().names()))
            .with("serials", paragraph.applicability().serials().words())
            .with("modification", paragraph.modification())
            .with("modification-is", paragraph.modificationPresent() ? "yes" : "no")
            .with("forbids", paragraph.forbids())
            .with("tolerance-source", paragraph.toleranceSource())
            .with("tolerance-condition", paragraph.toleranceCondition())
            .with("optional", paragraph.optional() ? "yes" : null)
            .withAll("terminates", paragraph.terminates().stream().map(UUID::toString).toList());
    RuleForm.fill(form, paragraph.rule());
    return form;
  }

  /** The other paragraphs of its directive, that its doing could end. */
  static List<Option> siblings(List<ParagraphSheet> all, UUID except) {
    return all.stream()
        .filter(one -> !one.withdrawn() && !one.id().equals(except))
        .map(one -> new Option(one.id().toString(), one.words()))
        .toList();
  }

  /** What was filled in, or null; the form then has the sentences. */
  static NewParagraph read(Form form, List<Option> siblings) {
    String label = form.optional("label", "Paragraph").text(20);
    String title = form.required("title", "Title").text(90);
    Applicability.About about = form.required("about", "About").choice(Applicability.About.class);
    List<String> names = form.required("names", "Types or part numbers").read(ParagraphForm::names);
    Serials serials = form.required("serials", "Serial numbers").read(Serials::parse);
    String modification = form.optional("modification", "Modification").read(Configuration::code);
    String present = form.optional("modification-is", "Only").choice("yes", "no");
    Rule rule = RuleForm.read(form);
    String forbids = form.optional("forbids", "Once overdue it forbids").text(60);
    String source = form.optional("tolerance-source", "Text that gives it").text(300);
    String condition = form.optional("tolerance-condition", "Condition").text(200);
    List<String> terminates =
        form.optional("terminates", "Ends").choices(siblings.stream().map(Option::value).toList());
    if (form.isBad() || rule == null) {
      return null;
    }
    return new NewParagraph(
        DirectiveForm.orBlank(label),
        title,
        new Applicability(about, names, serials),
        DirectiveForm.orBlank(modification),
        !"no".equals(present),
        rule,
        forbids == null ? DueItem.ANY_FLIGHT : forbids,
        DirectiveForm.orBlank(source),
        DirectiveForm.orBlank(condition),
        terminates.stream().map(UUID::fromString).toList(),
        form.checked("optional"));
  }

  /** One a line, or with semicolons between. */
  private static List<String> names(String typed) {
    List<String> names =
        Arrays.stream(typed.split("[\\r\\n;]+"))
            .map(name -> name.strip().replaceAll("\\s+", " "))
            .filter(name -> !name.isEmpty())
            .toList();
    if (names.isEmpty() || names.size() > 100) {
      throw new IllegalArgumentException("must be 1 to 100, one on each line");
    }
    for (String name : names) {
      if (name.length() > 80) {
        throw new IllegalArgumentException("must be at most 80 characters each: “" + name + "”");
      }
    }
    return names;
  }
}
