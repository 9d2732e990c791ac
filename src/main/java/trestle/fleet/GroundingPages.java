package trestle.fleet;

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
import trestle.fleet.Groundings.GroundingSheet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.Viewer;

/** A person grounds an aircraft, and a person lifts that. */
@Path("/")
@RequestScoped
public class GroundingPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Fleet fleet;
  @Inject Groundings groundings;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record GroundingList(
      AircraftSheet aircraft,
      Form form,
      List<GroundingLine> standing,
      List<GroundingLine> history,
      boolean mayGround,
      boolean mayLift)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record GroundingLift(AircraftSheet aircraft, GroundingLine line, Form form)
      implements TemplateInstance {}

  public record GroundingLine(UUID id, String why, String at, boolean lifting) {}

  @GET
  @Path("aircraft/{id}/groundings")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response groundings(@PathParam("id") UUID id) {
    return Answers.page(groundingList(id, Form.blank()));
  }

  @POST
  @Path("aircraft/{id}/groundings")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ground(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    fleet.sheet(viewer, id, View.EVERYTHING);
    Form form = Form.of(posted);
    String why = form.required("why", "Why").lines(2000);
    if (form.isReady()) {
      groundings.ground(viewer, id, why, form.key());
      return Answers.see("/aircraft/" + id + "/groundings");
    }
    return Answers.again(form, groundingList(id, form));
  }

  @GET
  @Path("aircraft/{id}/groundings/{grounding}/lifting")
  @RolesAllowed({Allow.OWNER, Allow.ENGINEER})
  public Response askLifting(@PathParam("id") UUID id, @PathParam("grounding") UUID grounding) {
    return Answers.page(lifting(id, grounding, Form.blank()));
  }

  @POST
  @Path("aircraft/{id}/groundings/{grounding}/lifting")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.ENGINEER})
  public Response lift(
      @PathParam("id") UUID id,
      @PathParam("grounding") UUID grounding,
      MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String why = form.required("done", "What was done").lines(2000);
    GroundingLift page = lifting(id, grounding, form);
    if (form.isReady()) {
      try {
        groundings.lift(viewer, id, grounding, why);
        return Answers.see("/aircraft/" + id + "/groundings");
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page);
      }
    }
    return Answers.again(form, page);
  }

  private GroundingLift lifting(UUID id, UUID grounding, Form form) {
    GroundingLine line =
        groundings.history(viewer, id, View.EVERYTHING).stream()
            .filter(each -> each.id().equals(grounding) && each.lifts() == null)
            .map(this::line)
            .findFirst()
            .orElseThrow(() -> new NotHere("There is no such grounding of this aircraft."));
    return new GroundingLift(fleet.sheet(viewer, id, View.EVERYTHING), line, form);
  }

  private GroundingList groundingList(UUID id, Form form) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, View.EVERYTHING);
    List<GroundingLine> standing =
        groundings
            .standing(viewer, List.of(id), View.EVERYTHING)
            .getOrDefault(id, List.of())
            .stream()
            .map(this::line)
            .toList();
    List<GroundingLine> history =
        groundings.history(viewer, id, View.EVERYTHING).stream().map(this::line).toList();
    return new GroundingList(
        aircraft,
        form,
        standing,
        history,
        viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.PILOT, Role.ENGINEER),
        viewer.isAny(Role.OWNER, Role.ENGINEER));
  }

  private GroundingLine line(GroundingSheet sheet) {
    return new GroundingLine(
        sheet.id(),
        sheet.why(),
        Shown.moment(sheet.at(), viewer.flightZone()),
        sheet.lifts() != null);
  }
}
