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
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Effects;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Upload;
import trestle.web.Viewer;

/** The form by which it is filed that required work was done, and by which that is put right. */
@Path("/")
@RequestScoped
public class CompliancePages {
  /** The reason of what is filed to be taken back at once. */
  private static final String TRIED = "Tried out";

  @Inject Compliances compliances;
  @Inject ComplianceRecords complianceRecords;
  @Inject ComplianceView records;
  @Inject ComplianceAbouts abouts;
  @Inject Subjects subjects;
  @Inject Members members;
  @Inject Effects effects;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComplianceNew(
      ComplianceAbout about,
      Form form,
      List<ComplianceForm.Counting> countings,
      List<Option> licences,
      boolean mayCertify,
      String zone,
      ComplianceView.Follows follows,
      RuleChoices words,
      String lead,
      Effects.Told told)
      implements TemplateInstance {}

  @GET
  @Path("requirements/{id}/compliances/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask(
      @PathParam("id") UUID id,
      @QueryParam("aircraft") UUID aircraft,
      @QueryParam("component") UUID component) {
    ComplianceAbout about = abouts.of(viewer, id, aircraft, component);
    SubjectLine line = subjects.line(viewer, about.aircraft(), about.component(), now());
    Form form = ComplianceForm.blank(viewer, line, today());
    firstLicence(form);
    return Answers.page(
        page(
            about,
            form.with("aircraft", aircraft).with("component", component),
            line,
            null,
            "",
            null));
  }

  @POST
  @Path("requirements/{id}/compliances")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response file(@PathParam("id") UUID id) {
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    ComplianceAbout about =
        abouts.of(
            viewer,
            id,
            form.optional("aircraft", "Aircraft").uuid(),
            form.optional("component", "Component").uuid());
    return file(about, form, upload);
  }

  @GET
  @Path("compliances/{id}/correction")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askCorrection(@PathParam("id") UUID id) {
    ComplianceAbout about = abouts.correcting(viewer, id);
    SubjectLine line = subjects.line(viewer, about.aircraft(), about.component(), now());
    Effects.Told told =
        about.corrects().stands()
            ? moves(about, () -> compliances.voided(viewer, id, TRIED, null))
            : null;
    return Answers.page(
        page(
            about,
            ComplianceForm.of(about.corrects(), viewer),
            line,
            null,
            "Were it taken away,",
            told));
  }

  @POST
  @Path("compliances/{id}/correction")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response correct(@PathParam("id") UUID id) {
    Upload upload = Upload.ofRequest();
    return file(abouts.correcting(viewer, id), Form.of(upload.fields()), upload);
  }

  private Response file(ComplianceAbout about, Form form, Upload upload) {
    SubjectLine line = subjects.line(viewer, about.aircraft(), about.component(), now());
    NewCompliance asked =
        new ComplianceForm(form, viewer, line, today())
            .read(about.requirementId(), about.aircraft(), about.component());
    List<DocumentFiles.Draft> papers = papers(form, upload);
    List<String> filed =
        about.corrects() == null
            ? List.of()
            : about.corrects().papers().stream().map(Paper::sha256).toList();
    List<String> staying = form.optional(DocumentFiles.STAYS, "Files that stay").choices(filed);
    UUID corrects = about.corrects() == null ? null : about.corrects().id();
    boolean preview = form.checked("preview");
    String reason =
        corrects == null || preview ? null : form.required("reason", "Reason").text(500);
    if (form.isOk() && preview) {
      ComplianceView.Follows follows =
          records.follows(
              viewer, complianceRecords.whatFollows(viewer, asked, corrects).orElse(null));
      Effects.Told told =
          corrects == null
              ? null
              : moves(about, () -> compliances.correct(viewer, corrects, asked, TRIED));
      return Answers.page(page(about, form, line, follows, "With what is typed here,", told));
    }
    int status = 422;
    if (form.isReady()) {
      try {
        if (corrects == null) {
          compliances.file(viewer, asked, papers);
        } else {
          compliances.correct(viewer, corrects, asked, reason, staying, papers);
        }
        return Answers.see(about.back());
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        status = 409;
      }
    }
    return Answers.page(form.isBad() ? status : 200, page(about, form, line, null, "", null));
  }

  private Effects.Told moves(ComplianceAbout about, Runnable filing) {
    List<UUID> aircraft = about.aircraft() == null ? List.of() : List.of(about.aircraft());
    return effects.of(viewer, about.corrects().id(), aircraft, filing);
  }

  private static List<DocumentFiles.Draft> papers(Form form, Upload upload) {
    List<DocumentFiles.Draft> papers = new ArrayList<>();
    for (Upload.File sent : upload.files(DocumentFiles.FIELD)) {
      try {
        papers.add(DocumentFiles.prepare(sent.name(), sent.bytes()));
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return papers;
  }

  private TemplateInstance page(
      ComplianceAbout about,
      Form form,
      SubjectLine line,
      ComplianceView.Follows follows,
      String lead,
      Effects.Told told) {
    return new ComplianceNew(
        about,
        form,
        ComplianceForm.countings(line),
        licences(),
        viewer.is(Role.ENGINEER),
        viewer.zone().getId().replace('_', ' '),
        follows,
        new RuleChoices(),
        lead,
        told);
  }

  private List<Option> licences() {
    return members.licencesOf(viewer, viewer.personId(), today()).stream()
        .map(one -> new Option(one.number(), one.kind() + " " + one.number()))
        .toList();
  }

  private void firstLicence(Form form) {
    licences().stream().findFirst().ifPresent(one -> form.with("licence", one.value()));
  }

  private View now() {
    return View.asAt(today());
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
