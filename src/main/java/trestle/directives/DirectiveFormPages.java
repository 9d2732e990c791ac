package trestle.directives;

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
import jakarta.ws.rs.core.Response;
import java.util.List;
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Upload;
import trestle.web.Viewer;

/** Entering a directive or bulletin, and revising or withdrawing it. */
@Path("/")
@RequestScoped
public class DirectiveFormPages {
  @Inject Directives directives;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DirectiveNew(Form form, List<Option> kinds, List<Option> forces, List<Option> others)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DirectiveRevise(
      DirectiveSheet directive,
      Form form,
      DirectiveSheet theirs,
      List<Option> kinds,
      List<Option> forces,
      List<Option> others)
      implements TemplateInstance {}

  @GET
  @Path("directives/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask() {
    return Answers.page(newPage(DirectiveForm.blank()));
  }

  @POST
  @Path("directives")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response enter() {
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    NewDirective asked =
        DirectiveForm.read(
            form, DirectiveForm.others(directives.all(viewer), null), file(form, upload));
    if (form.isReady()) {
      try {
        return Answers.see("/directives/" + directives.enter(viewer, asked, form.key()));
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, newPage(form));
  }

  @GET
  @Path("directives/{id}/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askRevision(@PathParam("id") UUID id) {
    DirectiveSheet directive = directives.one(viewer, id);
    return Answers.page(revisePage(directive, DirectiveForm.of(directive), null));
  }

  @POST
  @Path("directives/{id}/revision")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response revise(@PathParam("id") UUID id) {
    DirectiveSheet directive = directives.one(viewer, id);
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    NewDirective asked =
        DirectiveForm.read(
            form, DirectiveForm.others(directives.all(viewer), id), file(form, upload));
    String reason = form.required("reason", "Reason").text(500);
    UUID revises = form.required("revises", "What is revised").uuid();
    if (form.isReady()) {
      try {
        directives.revise(viewer, id, revises, asked, form.checked("withdraw"), reason, form.key());
        return Answers.see("/directives/" + id);
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        DirectiveSheet theirs = directives.one(viewer, id);
        form.with("revises", theirs.rowId());
        return Answers.page(409, revisePage(theirs, form, theirs));
      }
    }
    return Answers.again(form, revisePage(directive, form, null));
  }

  private static DirectiveFiles.Draft file(Form form, Upload upload) {
    List<Upload.File> sent = upload.files(DirectiveFiles.FIELD);
    if (sent.isEmpty()) {
      return null;
    }
    try {
      return DirectiveFiles.prepare(sent.get(0).name(), sent.get(0).bytes());
    } catch (Refusal refusal) {
      form.refused(refusal);
      return null;
    }
  }

  private DirectiveNew newPage(Form form) {
    return new DirectiveNew(
        form,
        DirectiveForm.KINDS,
        DirectiveForm.FORCES,
        DirectiveForm.others(directives.all(viewer), null));
  }

  /**
   * @param theirs what somebody else filed meanwhile, or null
   */
  private DirectiveRevise revisePage(DirectiveSheet directive, Form form, DirectiveSheet theirs) {
    return new DirectiveRevise(
        directive,
        form,
        theirs,
        DirectiveForm.KINDS,
        DirectiveForm.FORCES,
        DirectiveForm.others(directives.all(viewer), directive.id()));
  }
}
