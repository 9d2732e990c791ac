package trestle.workshop;

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
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.profiles.PilotTask;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** A pilot's own small work on an aircraft, and whether it is allowed there. */
@Path("/")
@RequestScoped
public class PilotWorkPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;
  private static final List<Option> USES =
      List.of(new Option("private", "Not flown for hire"), new Option("hire", "Flown for hire"));

  @Inject PilotWorks works;
  @Inject Fleet fleet;
  @Inject Signatory signatory;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PilotWorkPage(
      AircraftSheet aircraft,
      PilotWorks.Rule rule,
      String refusal,
      List<PilotWorks.Done> done,
      List<Option> tasks,
      List<Option> licences,
      List<Option> uses,
      String statement,
      boolean mayState,
      boolean maySign,
      boolean justSigned,
      Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PilotWorkCorrection(
      AircraftSheet aircraft,
      PilotWorks.Done work,
      List<Option> tasks,
      List<Option> licences,
      String statement,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/pilot-works")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response of(@PathParam("id") UUID id, @QueryParam("signed") String signed) {
    Form form = WorkForm.begun(viewer, clock.instant(), signatory.licences());
    return Answers.page(page(id, signed != null, form));
  }

  @POST
  @Path("aircraft/{id}/pilot-works")
  @Consumes(FORMS)
  @RolesAllowed(Allow.PILOT)
  public Response sign(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    fleet.sheet(viewer, id, View.EVERYTHING);
    Form form = Form.of(posted);
    PilotWorks.NewPilotWork asked = read(id, form);
    return Answers.filing(
        form,
        () -> {
          works.sign(viewer, signatory.prove(form), asked, form.key());
          return "/aircraft/" + id + "/pilot-works?signed=1";
        },
        () -> page(id, false, form));
  }

  private PilotWorks.NewPilotWork read(UUID aircraft, Form form) {
    String task = form.required("task", "Work").text(PilotTask.MOST_LETTERS);
    String words = form.required("words", "What was done").lines(2_000);
    String data = form.required("data-reference", "Data").text(200);
    Instant at = StatedMoment.of(form, "Done on", viewer, clock.instant());
    String licence = WorkForm.licence(form);
    return new PilotWorks.NewPilotWork(aircraft, task, words, data, at, licence);
  }

  @GET
  @Path("pilot-works/{id}/correction")
  @RolesAllowed(Allow.PILOT)
  public Response askCorrection(@PathParam("id") UUID id) {
    PilotWorks.Done work = works.one(viewer, id);
    Form form =
        WorkForm.begun(viewer, work.at(), signatory.licences())
            .with("task", work.task())
            .with("words", work.words())
            .with("data-reference", work.data())
            .with("time", Shown.time(work.at(), viewer.flightZone()))
            .with("licence", work.licence());
    return Answers.page(correctionPage(work, form));
  }

  @POST
  @Path("pilot-works/{id}/correction")
  @Consumes(FORMS)
  @RolesAllowed(Allow.PILOT)
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    PilotWorks.Done work = works.one(viewer, id);
    Form form = Form.of(posted);
    PilotWorks.NewPilotWork asked = read(work.aircraftId(), form);
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          works.correct(viewer, signatory.prove(form), id, asked, reason, form.key());
          return "/aircraft/" + work.aircraftId() + "/pilot-works?signed=1";
        },
        () -> correctionPage(work, form));
  }

  @POST
  @Path("aircraft/{id}/pilot-works/rule")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response state(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    fleet.sheet(viewer, id, View.EVERYTHING);
    Form form = Form.of(posted);
    String use = form.required("use", "Use").choice("private", "hire");
    String authority = form.required("authority", "Authority").text(200);
    return Answers.filing(
        form,
        () -> {
          works.state(viewer, id, use.equals("hire"), authority, form.key());
          return "/aircraft/" + id + "/pilot-works";
        },
        () -> page(id, false, form));
  }

  private PilotWorkCorrection correctionPage(PilotWorks.Done work, Form form) {
    return new PilotWorkCorrection(
        fleet.sheet(viewer, work.aircraftId(), View.EVERYTHING),
        work,
        tasksWith(work),
        signatory.licences(),
        PilotWorks.STATEMENT,
        form);
  }

  /** Its own stays a choice, though the list no longer has it. */
  private List<Option> tasksWith(PilotWorks.Done work) {
    List<Option> all = new ArrayList<>(tasks(work.aircraftId()));
    Option own = new Option(work.task(), work.task());
    if (!all.contains(own)) {
      all.add(own);
    }
    return all;
  }

  private List<Option> tasks(UUID aircraft) {
    return works.tasks(viewer, aircraft).stream().map(task -> new Option(task, task)).toList();
  }

  private PilotWorkPage page(UUID id, boolean justSigned, Form form) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, View.EVERYTHING);
    String refusal = works.refusal(viewer, id).orElse("");
    return new PilotWorkPage(
        aircraft,
        works.rule(viewer, id).orElse(null),
        refusal,
        works.of(viewer, id),
        tasks(id),
        signatory.licences(),
        USES,
        PilotWorks.STATEMENT,
        viewer.isAny(Role.OWNER, Role.CONTROLLER),
        viewer.is(Role.PILOT) && refusal.isEmpty(),
        justSigned,
        form);
  }
}
