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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Issuing a revision of a programme. */
@Path("/programmes/{id}/revisions")
@RequestScoped
public class ProgrammeRevisionPages {
  @Inject Programmes programmes;
  @Inject ProgrammeRevisions revisions;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ProgrammeRevisionNew(ProgrammeSheet programme, List<Issued> before, Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ProgrammeRevisionCorrection(ProgrammeSheet programme, Issued stands, Form form)
      implements TemplateInstance {}

  /** Of the revision asked for, or of the one issued last. */
  @GET
  @Path("correction")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askCorrection(@PathParam("id") UUID id, @QueryParam("revision") UUID revision) {
    List<Issued> issued = revisions.of(viewer, id, Records.ALL);
    Issued stands =
        issued.stream()
            .filter(one -> revision == null || one.id().equals(revision))
            .reduce((earlier, later) -> later)
            .orElse(null);
    Form form = Form.blank();
    if (stands != null) {
      form.with("corrects", stands.rowId())
          .with("number", stands.number())
          .with("approved-by", stands.approvedBy())
          .with("reference", stands.reference());
    }
    return Answers.page(
        new ProgrammeRevisionCorrection(programmes.sheet(viewer, id), stands, form));
  }

  @POST
  @Path("correction")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    ProgrammeSheet programme = programmes.sheet(viewer, id);
    UUID corrects = form.required("corrects", "Revision").uuid();
    String number = form.required("number", "Number").text(40);
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    String reference = form.optional("reference", "Approval").text(300);
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          revisions.correct(
              viewer,
              new ProgrammeRevisions.Correcting(
                  id,
                  corrects,
                  number,
                  approvedBy,
                  RequirementForm.orBlank(reference),
                  reason,
                  form.key()));
          return "/programmes/" + id;
        },
        () ->
            new ProgrammeRevisionCorrection(
                programme,
                revisions.of(viewer, id, Records.ALL).stream()
                    .filter(one -> one.rowId().equals(corrects))
                    .findFirst()
                    .orElse(null),
                form));
  }

  @GET
  @Path("new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response ask(@PathParam("id") UUID id) {
    return Answers.page(page(id, Form.blank().with("on", Shown.typed(today()))));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response issue(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String number = form.required("number", "Number").text(40);
    LocalDate on = form.required("on", "In force from").date();
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    String reference = form.optional("reference", "Approval").text(300);
    String reason = form.required("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        revisions.issue(
            viewer,
            new ProgrammeRevisions.NewIssue(
                id,
                number,
                on,
                approvedBy,
                RequirementForm.orBlank(reference),
                reason,
                form.key()));
        return Answers.see("/programmes/" + id);
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(id, form));
  }

  private ProgrammeRevisionNew page(UUID id, Form form) {
    return new ProgrammeRevisionNew(
        programmes.sheet(viewer, id), revisions.of(viewer, id, Records.ALL), form);
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
