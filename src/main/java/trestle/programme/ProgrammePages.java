package trestle.programme;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** The programmes of an operator, and one of them with what it requires and who follows it. */
@Path("/programmes")
@RequestScoped
public class ProgrammePages {
  @Inject Programmes programmes;
  @Inject ProgrammeRevisions revisions;
  @Inject Requirements requirements;
  @Inject RequirementRecords requirementRecords;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** A programme in the list. */
  public record Row(ProgrammeSheet programme, int requirements, List<String> registrations) {}

  /** A requirement in a programme's list; {@code with} names the revision it came with, or "". */
  public record Line(UUID id, String subject, Revision revision, String with) {}

  /**
   * An aircraft that follows a programme.
   *
   * @param revision that it took up, or ""
   * @param behind whether a later one was issued
   */
  public record Follower(AircraftSheet aircraft, String revision, boolean behind) {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ProgrammeList(List<Row> rows, boolean mayChange) implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ProgrammeNew(Form form) implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ProgrammePage(
      ProgrammeSheet programme,
      List<Line> lines,
      List<Issued> issued,
      List<Follower> followers,
      boolean mayChange)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ProgrammeCorrection(ProgrammeSheet programme, Form form) implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all() {
    List<Row> rows =
        programmes.all(viewer, now()).stream()
            .map(
                programme ->
                    new Row(
                        programme,
                        lines(programme.id(), List.of()).size(),
                        followers(programme.id()).stream()
                            .map(AircraftSheet::registration)
                            .toList()))
            .toList();
    return Answers.page(new ProgrammeList(rows, mayChange()));
  }

  @GET
  @Path("new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response ask() {
    return Answers.page(new ProgrammeNew(Form.blank().with("from", today())));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response create(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Programmes.NewProgramme asked = read(form, true);
    if (form.isReady()) {
      try {
        return Answers.see("/programmes/" + programmes.create(viewer, asked));
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, new ProgrammeNew(form));
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    List<Issued> issued = revisions.of(viewer, id, now());
    return Answers.page(
        new ProgrammePage(
            programmes.sheet(viewer, id),
            lines(id, issued),
            issued,
            followers(id, issued),
            mayChange()));
  }

  @GET
  @Path("{id}/correction")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askCorrection(@PathParam("id") UUID id) {
    ProgrammeSheet sheet = programmes.sheet(viewer, id);
    Form form =
        Form.blank()
            .with("corrects", sheet.rowId())
            .with("name", sheet.name())
            .with("type", sheet.typeName())
            .with("source-reference", sheet.sourceReference());
    return Answers.page(new ProgrammeCorrection(sheet, form));
  }

  @POST
  @Path("{id}/correction")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Programmes.NewProgramme asked = read(form, false);
    String reason = form.required("reason", "Reason").text(500);
    UUID corrects = form.required("corrects", "What is corrected").uuid();
    int status = 422;
    if (form.isReady()) {
      try {
        programmes.correct(viewer, id, corrects, asked, reason);
        return Answers.see("/programmes/" + id);
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        status = 409;
      }
    }
    ProgrammeSheet sheet = programmes.sheet(viewer, id);
    if (status == 409) {
      // What was seen now is what stands: sending once more corrects that.
      form.with("corrects", sheet.rowId());
    }
    return Answers.page(form.isBad() ? status : 200, new ProgrammeCorrection(sheet, form));
  }

  private static Programmes.NewProgramme read(Form form, boolean dated) {
    String name = form.required("name", "Name").text(120);
    String type = form.optional("type", "Type of aircraft").text(80);
    String source = form.optional("source-reference", "Source").text(300);
    LocalDate from = dated ? form.required("from", "In force from").date() : null;
    return new Programmes.NewProgramme(
        name, RequirementForm.orBlank(type), RequirementForm.orBlank(source), from, form.key());
  }

  private List<Line> lines(UUID programme, List<Issued> issued) {
    LocalDate today = today();
    Map<Long, String> numbers = new HashMap<>();
    issued.forEach(one -> numbers.put(one.sequence(), one.number()));
    return requirementRecords.ofProgramme(viewer, programme, now()).stream()
        .filter(one -> !one.latest().withdrawn())
        .map(
            one -> {
              Revision inForce = one.inForce(today);
              Revision shown = inForce == null ? one.latest() : inForce;
              return new Line(
                  one.requirement().id(),
                  one.requirement().subject(),
                  shown,
                  numbers.getOrDefault(shown.under(), ""));
            })
        .toList();
  }

  private List<AircraftSheet> followers(UUID programme) {
    List<UUID> ids = programmes.followers(viewer, programme, now());
    return fleet.sheets(viewer, now()).stream().filter(sheet -> ids.contains(sheet.id())).toList();
  }

  private List<Follower> followers(UUID programme, List<Issued> issued) {
    Map<UUID, String> taken = programmes.taken(viewer, programme, now());
    Map<String, String> numbers = new HashMap<>();
    issued.forEach(one -> numbers.put(one.id().toString(), one.number()));
    String newest = issued.isEmpty() ? "" : issued.get(issued.size() - 1).id().toString();
    return fleet.sheets(viewer, now()).stream()
        .filter(sheet -> taken.containsKey(sheet.id()))
        .map(
            sheet -> {
              String revision = taken.get(sheet.id());
              return new Follower(
                  sheet, numbers.getOrDefault(revision, ""), !revision.equals(newest));
            })
        .toList();
  }

  private boolean mayChange() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER);
  }

  private View now() {
    return View.asAt(today());
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
