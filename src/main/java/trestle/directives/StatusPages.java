package trestle.directives;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.Views;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Role;
import trestle.web.Viewer;

/** The directives of one aircraft: what 14 CFR 91.417(a)(2)(v) and M.A.305 ask to be listed. */
@Path("aircraft/{id}/directives")
@RequestScoped
public class StatusPages {
  @Inject StatusReport report;
  @Inject Fleet fleet;
  @Inject Views views;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record AircraftDirectives(
      AircraftSheet aircraft, List<StatusReport.Row> rows, AsAt at, boolean mayAssess)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofAircraft(@PathParam("id") UUID id, @Context UriInfo uri) {
    AsAt at = views.asked(viewer, uri.getQueryParameters());
    AircraftSheet aircraft = fleet.sheet(viewer, id, at.view());
    return Answers.page(
        at.status(),
        new AircraftDirectives(
            aircraft, report.of(viewer, aircraft, at.view()), at, mayAssess(at)));
  }

  private boolean mayAssess(AsAt at) {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER) && !at.isPast();
  }
}
