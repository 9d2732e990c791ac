package trestle.directives;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.web.Form;
import trestle.web.Option;

/** What a directive or bulletin says of itself, as a person fills it in. */
final class DirectiveForm {
  static final List<Option> KINDS =
      List.of(
          new Option(DirectiveSheet.DIRECTIVE, "Airworthiness directive"),
          new Option(DirectiveSheet.BULLETIN, "Service bulletin"));
  static final List<Option> FORCES =
      List.of(
          new Option("mandatory", "Mandatory", "unassessed, it holds what it may be about"),
          new Option("recommended", "Recommended", "it holds nothing"));

  private DirectiveForm() {}

  static Form blank() {
    return Form.blank().with("kind", DirectiveSheet.DIRECTIVE).with("force", "mandatory");
  }

  static Form of(DirectiveSheet directive) {
    return Form.blank()
        .with("revises", directive.rowId())
        .with("issuer", directive.issuer())
        .with("number", directive.number())
        .with("kind", directive.bulletin() ? DirectiveSheet.BULLETIN : DirectiveSheet.DIRECTIVE)
        .with("force", directive.mandatory() ? "mandatory" : "recommended")
        .with("revision", directive.revision())
        .with("effective-on", directive.effectiveOn())
        .with("title", directive.title())
        .with("text-reference", directive.textReference())
        .withAll("supersedes", directive.supersedes().stream().map(UUID::toString).toList());
  }

  /** The other directives, that it could take the place of. */
  static List<Option> others(List<DirectiveSheet> all, UUID except) {
    return all.stream()
        .filter(one -> !one.withdrawn() && !one.id().equals(except))
        .map(one -> new Option(one.id().toString(), one.number(), one.title()))
        .toList();
  }

  /** What was filled in, or null; the form then has the sentences. */
  static NewDirective read(Form form, List<Option> others, DirectiveFiles.Draft file) {
    String issuer = form.required("issuer", "Issuer").text(80);
    String number = form.required("number", "Number").text(60);
    String kind =
        form.required("kind", "Kind").choice(DirectiveSheet.DIRECTIVE, DirectiveSheet.BULLETIN);
    String force = form.required("force", "Force").choice("mandatory", "recommended");
    String revision = form.optional("revision", "Revision").text(40);
    LocalDate effective = form.required("effective-on", "Effective date").date();
    String title = form.required("title", "Title").text(120);
    String reference = form.optional("text-reference", "Where its text is").text(300);
    List<String> supersedes =
        form.optional("supersedes", "Takes the place of")
            .choices(others.stream().map(Option::value).toList());
    if (form.isBad()) {
      return null;
    }
    return new NewDirective(
        issuer,
        number,
        DirectiveSheet.BULLETIN.equals(kind),
        "mandatory".equals(force),
        orBlank(revision),
        effective,
        title,
        orBlank(reference),
        file,
        supersedes.stream().map(UUID::fromString).toList());
  }

  static String orBlank(String text) {
    return text == null ? "" : text;
  }
}
