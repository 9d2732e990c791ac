package trestle.directives;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Pager;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Directives and bulletins: the list, one of them with whom it is about, and their texts. */
@Path("/")
@RequestScoped
public class DirectivePages {
  private static final int A_PAGE = 50;

  /** The lines of each paragraph on its directive's page; all are on the paragraph's own. */
  private static final int FEW = 20;

  @Inject Directives directives;
  @Inject Surveys surveys;
  @Inject AlternativeMethods methods;
  @Inject Searches searches;
  @Inject DirectiveFiles files;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** A directive in the list. */
  public record Row(DirectiveSheet directive, String state, long toBeAssessed) {}

  /** A line of a table of aircraft and parts; {@code registration} "" for a part on the shelf. */
  public record Subject(Status.Line line, String registration) {}

  /** A paragraph with whom it is about. */
  public record Asking(Told told, List<Subject> subjects, List<String> ends) {

    public ParagraphSheet paragraph() {
      return told.paragraph();
    }

    public boolean hasMore() {
      return told.all() > subjects.size();
    }
  }

  /** One row of a directive's history, with who filed it. */
  public record Version(DirectiveSheet directive, String by) {}

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DirectiveList(
      List<Subject> open,
      Pager pager,
      List<Row> rows,
      List<Searches.Search> overdue,
      boolean mayKeep)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DirectivePage(
      DirectiveSheet directive,
      String state,
      List<DirectiveSheet> supersedes,
      List<Asking> paragraphs,
      List<AlternativeMethods.Method> methods,
      List<Version> versions,
      boolean mayKeep)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ParagraphPage(
      DirectiveSheet directive, Asking asking, String state, Pager pager, boolean mayKeep)
      implements TemplateInstance {}

  @GET
  @Path("directives")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response list(@QueryParam("page") Integer page, @Context UriInfo uri) {
    Surveys.Open open = surveys.toBeAssessed(viewer, new Surveys.Page(page, A_PAGE), now());
    List<DirectiveSheet> all = directives.all(viewer);
    return Answers.page(
        new DirectiveList(
            subjects(open.lines()),
            Pager.of(page, A_PAGE, open.rows(), uri),
            all.stream()
                .map(
                    one ->
                        new Row(one, state(one, all), open.byDirective().getOrDefault(one.id(), 0)))
                .toList(),
            searches.newest(viewer).stream().filter(Searches.Search::overdue).toList(),
            mayKeep()));
  }

  @GET
  @Path("directives/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    List<DirectiveSheet> history = directives.history(viewer, id);
    DirectiveSheet directive = history.get(history.size() - 1);
    List<DirectiveSheet> all = directives.all(viewer);
    Map<UUID, String> names = members.names(viewer);
    return Answers.page(
        new DirectivePage(
            directive,
            state(directive, all),
            all.stream().filter(one -> directive.supersedes().contains(one.id())).toList(),
            asking(directive),
            methods.of(viewer, Set.of(id), View.EVERYTHING).getOrDefault(id, List.of()),
            history.stream()
                .map(row -> new Version(row, names.getOrDefault(row.recordedBy(), "")))
                .toList(),
            mayKeep()));
  }

  /** Whom a paragraph is about, all of them; {@code state} leaves those in another state out. */
  @GET
  @Path("paragraphs/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response paragraph(
      @PathParam("id") UUID id,
      @QueryParam("state") String state,
      @QueryParam("page") Integer page,
      @Context UriInfo uri) {
    ParagraphSheet paragraph = directives.paragraph(viewer, id);
    Judged.State only = Judged.State.parse(state);
    Told told = surveys.ofParagraph(viewer, paragraph, only, new Surveys.Page(page, A_PAGE), now());
    return Answers.page(
        new ParagraphPage(
            told.directive(),
            asking(told, directives.paragraphs(viewer, paragraph.directiveId())),
            only == null ? "" : only.word(),
            Pager.of(page, A_PAGE, told.rows(), uri),
            mayKeep()));
  }

  @GET
  @Path("directive-files/{file}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response text(@PathParam("file") String sha256) {
    DirectiveFiles.Draft file = files.file(viewer, sha256);
    String name = file.name().replaceAll("[^A-Za-z0-9._-]", "-").replaceAll("\\.pdf$", "");
    return Response.ok(file.bytes(), "application/pdf")
        .header("Cache-Control", "private, max-age=31536000, immutable")
        .header("Content-Disposition", "attachment; filename=\"" + name + ".pdf\"")
        .build();
  }

  private List<Asking> asking(DirectiveSheet directive) {
    List<ParagraphSheet> all = directives.paragraphs(viewer, directive.id());
    return surveys.ofDirective(viewer, directive, now(), FEW).stream()
        .map(told -> asking(told, all))
        .toList();
  }

  private Asking asking(Told told, List<ParagraphSheet> siblings) {
    return new Asking(
        told,
        subjects(told.lines()),
        siblings.stream()
            .filter(other -> told.paragraph().terminates().contains(other.id()))
            .map(ParagraphSheet::words)
            .toList());
  }

  private List<Subject> subjects(List<Status.Line> lines) {
    Set<UUID> aircraft = new HashSet<>();
    lines.stream()
        .map(line -> line.item().aircraftId())
        .filter(Objects::nonNull)
        .forEach(aircraft::add);
    Map<UUID, AircraftSheet> sheets = fleet.sheets(viewer, aircraft, now());
    return lines.stream()
        .map(
            line -> {
              AircraftSheet sheet = sheets.get(line.item().aircraftId());
              return new Subject(line, sheet == null ? "" : sheet.registration());
            })
        .toList();
  }

  /** "Withdrawn since …", "Gave place to X-2", "Takes effect on …", or "". */
  private String state(DirectiveSheet directive, List<DirectiveSheet> all) {
    if (directive.withdrawn()) {
      return "Withdrawn from " + Shown.date(directive.effectiveOn());
    }
    for (DirectiveSheet other : all) {
      if (!other.withdrawn() && other.supersedes().contains(directive.id())) {
        return "Superseded by " + other.number() + " from " + Shown.date(other.effectiveOn());
      }
    }
    return directive.effectiveOn().isAfter(today())
        ? "Takes effect on " + Shown.date(directive.effectiveOn())
        : "";
  }

  private boolean mayKeep() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER);
  }

  private View now() {
    return View.asAt(today());
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
