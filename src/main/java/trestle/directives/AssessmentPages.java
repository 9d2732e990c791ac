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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Assessing a paragraph for one aircraft or part. */
@Path("/")
@RequestScoped
public class AssessmentPages {
  private static final List<Option> VERDICTS =
      List.of(
          new Option(
              Verdict.APPLIES.word(), "It applies", "what it asks for is put on the due list"),
          new Option(Verdict.DOES_NOT.word(), "It does not apply", "say why below"),
          new Option(
              Verdict.WAIVED.word(), "Waived for now", "until the day below; then it holds again"));
  private static final List<Option> RESTS_ON =
      List.of(
          new Option(
              AssessmentSheet.INSTALLATION,
              "How it is fitted here",
              "fitted elsewhere, it is to be assessed again"),
          new Option(
              AssessmentSheet.PART,
              "The part itself",
              "its serial number, what was done to it: the judgement follows it"));

  @Inject Directives directives;
  @Inject Assessments assessments;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** What was judged before, with who did. */
  public record Before(AssessmentSheet assessment, String by) {}

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record AssessmentNew(
      DirectiveSheet directive,
      ParagraphSheet paragraph,
      Item item,
      Judged judged,
      List<Before> history,
      Form form,
      List<Option> verdicts,
      List<Option> rests)
      implements TemplateInstance {}

  @GET
  @Path("paragraphs/{id}/assessments/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask(
      @PathParam("id") UUID id,
      @QueryParam("aircraft") UUID aircraft,
      @QueryParam("component") UUID component) {
    ParagraphSheet paragraph = directives.paragraph(viewer, id);
    Item item = assessments.item(viewer, aircraft, component);
    Form form =
        Form.blank()
            .with("aircraft", item.isComponent() ? null : item.aircraftId())
            .with("component", item.componentId())
            .with("paragraph", paragraph.rowId())
            .with("rests-on", AssessmentSheet.INSTALLATION)
            .with("on", Shown.typed(today()));
    return Answers.page(page(paragraph, item, form));
  }

  @POST
  @Path("paragraphs/{id}/assessments")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response assess(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    ParagraphSheet paragraph = directives.paragraph(viewer, id);
    Form form = Form.of(posted);
    UUID aircraft = form.optional("aircraft", "Aircraft").uuid();
    UUID component = form.optional("component", "Component").uuid();
    Item item = assessments.item(viewer, aircraft, component);
    UUID seen = form.required("paragraph", "Paragraph").uuid();
    Verdict verdict = form.required("verdict", "What you judge").choice(Verdict.class);
    String why = form.optional("why", "Reason").text(500);
    LocalDate lastDay = form.optional("last-day", "Waived until").date();
    String rests =
        item.isComponent()
            ? form.required("rests-on", "It rests on")
                .choice(AssessmentSheet.PART, AssessmentSheet.INSTALLATION)
            : AssessmentSheet.INSTALLATION;
    Instant at = StatedMoment.of(form, "Assessed on", viewer, clock.instant());
    if (form.isReady()) {
      try {
        assessments.assess(
            viewer,
            new NewAssessment(
                id,
                seen,
                aircraft,
                component,
                verdict,
                AssessmentSheet.PART.equals(rests),
                why == null ? "" : why,
                lastDay,
                at,
                form.key()));
        return Answers.see("/directives/" + paragraph.directiveId());
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        form.with("paragraph", paragraph.rowId());
        return Answers.page(409, page(paragraph, item, form));
      }
    }
    return Answers.again(form, page(paragraph, item, form));
  }

  private AssessmentNew page(ParagraphSheet paragraph, Item item, Form form) {
    DirectiveSheet directive = directives.one(viewer, paragraph.directiveId());
    Map<UUID, String> names = members.names(viewer);
    return new AssessmentNew(
        directive,
        paragraph,
        item,
        assessments.judged(viewer, directive, paragraph, item),
        assessments.history(viewer, paragraph, item).stream()
            .map(one -> new Before(one, names.getOrDefault(one.recordedBy(), "")))
            .toList(),
        form,
        VERDICTS,
        RESTS_ON);
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
