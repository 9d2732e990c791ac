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
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.List;
import java.util.UUID;
import trestle.programme.RuleChoices;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** The paragraphs of a directive: new ones, and what they say anew. */
@Path("/")
@RequestScoped
public class ParagraphPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Directives directives;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ParagraphNew(
      DirectiveSheet directive,
      Form form,
      List<Option> abouts,
      List<Option> presents,
      List<Option> siblings,
      RuleChoices words)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ParagraphRevise(
      DirectiveSheet directive,
      ParagraphSheet paragraph,
      Form form,
      ParagraphSheet theirs,
      List<Option> abouts,
      List<Option> presents,
      List<Option> siblings,
      RuleChoices words)
      implements TemplateInstance {}

  @GET
  @Path("directives/{id}/paragraphs/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id) {
    return Answers.page(newPage(directives.one(viewer, id), ParagraphForm.blank()));
  }

  @POST
  @Path("directives/{id}/paragraphs")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response add(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    DirectiveSheet directive = directives.one(viewer, id);
    Form form = Form.of(posted);
    NewParagraph asked = ParagraphForm.read(form, siblings(id, null));
    if (form.isReady()) {
      try {
        directives.addParagraph(viewer, id, asked, form.key());
        return Answers.see(directive.link());
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, newPage(directive, form));
  }

  @GET
  @Path("paragraphs/{id}/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askRevision(@PathParam("id") UUID id) {
    ParagraphSheet paragraph = directives.paragraph(viewer, id);
    return Answers.page(revisePage(paragraph, ParagraphForm.of(paragraph), null));
  }

  @POST
  @Path("paragraphs/{id}/revision")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    ParagraphSheet paragraph = directives.paragraph(viewer, id);
    Form form = Form.of(posted);
    NewParagraph asked = ParagraphForm.read(form, siblings(paragraph.directiveId(), id));
    String reason = form.required("reason", "Reason").text(500);
    UUID revises = form.required("revises", "What is revised").uuid();
    if (form.isReady()) {
      try {
        directives.reviseParagraph(
            viewer, id, revises, asked, form.checked("withdraw"), reason, form.key());
        return Answers.see("/directives/" + paragraph.directiveId());
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        ParagraphSheet theirs = directives.paragraph(viewer, id);
        form.with("revises", theirs.rowId());
        return Answers.page(409, revisePage(theirs, form, theirs));
      }
    }
    return Answers.again(form, revisePage(paragraph, form, null));
  }

  private List<Option> siblings(UUID directiveId, UUID except) {
    return ParagraphForm.siblings(directives.paragraphs(viewer, directiveId), except);
  }

  private ParagraphNew newPage(DirectiveSheet directive, Form form) {
    return new ParagraphNew(
        directive,
        form,
        ParagraphForm.ABOUT,
        ParagraphForm.PRESENT,
        siblings(directive.id(), null),
        new RuleChoices());
  }

  /**
   * @param theirs what somebody else filed meanwhile, or null
   */
  private ParagraphRevise revisePage(ParagraphSheet paragraph, Form form, ParagraphSheet theirs) {
    return new ParagraphRevise(
        directives.one(viewer, paragraph.directiveId()),
        paragraph,
        form,
        theirs,
        ParagraphForm.ABOUT,
        ParagraphForm.PRESENT,
        siblings(paragraph.directiveId(), paragraph.id()),
        new RuleChoices());
  }
}
