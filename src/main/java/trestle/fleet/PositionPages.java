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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.List;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** Where parts belong on an aircraft, and what is there. */
@Path("/")
@RequestScoped
public class PositionPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;
  private static final List<Option> KINDS = Option.of("engine", "propeller", "other");

  @Inject Fleet fleet;
  @Inject Positions positions;
  @Inject Components components;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PositionList(
      AircraftSheet aircraft,
      Form form,
      List<PositionLine> lines,
      List<Option> kinds,
      boolean mayFile)
      implements TemplateInstance {}

  public record PositionLine(Position position, Fitting fitting) {}

  @GET
  @Path("aircraft/{id}/positions")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response positions(@PathParam("id") UUID id, @QueryParam("code") String code) {
    Form form =
        fleet.positions(viewer, id, View.EVERYTHING).stream()
            .filter(position -> position.code().equals(code))
            .findFirst()
            .map(PositionPages::filled)
            .orElseGet(() -> Form.blank().with("kind", "engine").with("required", "yes"));
    return Answers.page(positionList(id, form));
  }

  @POST
  @Path("aircraft/{id}/positions")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response setPosition(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    fleet.sheet(viewer, id, View.EVERYTHING);
    Form form = Form.of(posted);
    String code = form.required("code", "Code").text(40);
    String label = form.required("label", "Name").text(60);
    PartKind kind = form.required("kind", "Kind").choice(PartKind.class);
    if (form.isReady()) {
      try {
        positions.setPosition(
            viewer, id, new Position(code, kind, label, form.checked("required")), form.key());
        return Answers.see("/aircraft/" + id + "/positions");
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, positionList(id, form));
  }

  @POST
  @Path("aircraft/{id}/positions/{code}/withdrawal")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response withdraw(
      @PathParam("id") UUID id,
      @PathParam("code") String code,
      MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    try {
      positions.withdrawPosition(viewer, id, code);
      return Answers.see("/aircraft/" + id + "/positions");
    } catch (Refusal refusal) {
      form.refused(refusal);
      return Answers.again(form, positionList(id, form));
    }
  }

  private static Form filled(Position position) {
    return Form.blank()
        .with("code", position.code())
        .with("kind", position.kind().word())
        .with("label", position.label())
        .with("required", position.required() ? "yes" : null);
  }

  private PositionList positionList(UUID id, Form form) {
    List<Fitting> fittings =
        components.fittings(viewer, List.of(id), View.EVERYTHING).getOrDefault(id, List.of());
    List<PositionLine> lines =
        fleet.positions(viewer, id, View.EVERYTHING).stream()
            .map(position -> new PositionLine(position, fitted(fittings, position)))
            .toList();
    return new PositionList(
        fleet.sheet(viewer, id, View.EVERYTHING),
        form,
        lines,
        KINDS,
        viewer.isAny(Role.OWNER, Role.CONTROLLER));
  }

  private static Fitting fitted(List<Fitting> fittings, Position position) {
    return fittings.stream()
        .filter(fitting -> fitting.isFitted() && fitting.positionCode().equals(position.code()))
        .findFirst()
        .orElse(null);
  }
}
