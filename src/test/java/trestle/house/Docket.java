package trestle.house;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.directives.AlternativeMethods;
import trestle.directives.Applicability;
import trestle.directives.DirectiveFiles;
import trestle.directives.Directives;
import trestle.directives.NewDirective;
import trestle.directives.NewParagraph;
import trestle.directives.Searches;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.web.Viewer;

/** A recommended bulletin with everything that can belong to one; every word bears the mark. */
@ApplicationScoped
class Docket {
  @Inject Directives directives;
  @Inject AlternativeMethods methods;
  @Inject Searches searches;

  /** The ids of what was filed, and the hash of its text. */
  record Found(UUID directive, UUID paragraph, String file) {}

  Found of(Viewer viewer, String mark, String type, LocalDate effective) {
    DirectiveFiles.Draft text =
        DirectiveFiles.prepare(
            mark + ".pdf", ("%PDF-1.7 " + mark).getBytes(StandardCharsets.UTF_8));
    UUID directive =
        directives.enter(
            viewer,
            new NewDirective(
                mark + " Works",
                mark + "-B1",
                true,
                false,
                "1",
                effective,
                mark + " seat rails",
                mark + " binder",
                text,
                List.of()),
            null);
    UUID paragraph =
        directives.addParagraph(
            viewer,
            directive,
            NewParagraph.of(
                "(a)",
                mark + " rails",
                Applicability.ofTypes("all", type),
                Rule.first(Limit.Every.of(Counter.HOURS, "100"))),
            null);
    methods.add(
        viewer,
        new AlternativeMethods.Method(
            directive, null, "", mark + " dye check", mark, mark + " letter", null),
        effective.atStartOfDay(viewer.zone()).toInstant(),
        null);
    searches.file(viewer, mark + " list", effective, null, mark + ": nothing new", null);
    return new Found(directive, paragraph, text.sha256());
  }
}
