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
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.Views;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Role;
import trestle.web.Viewer;

/** The directives of one component, wherever it is. */
@Path("components/{id}/directives")
@RequestScoped
public class ComponentStatusPages {
  @Inject StatusReport report;
  @Inject Components components;
  @Inject Fleet fleet;
  @Inject Views views;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentDirectives(
      ComponentSheet component,
      String registration,
      List<StatusReport.Row> rows,
      AsAt at,
      boolean mayAssess)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofComponent(@PathParam("id") UUID id, @Context UriInfo uri) {
    AsAt at = views.asked(viewer, uri.getQueryParameters());
    ComponentHistory component = components.history(viewer, id, at.view());
    Fitting fitted = component.fitted();
    String registration =
        fitted == null ? "" : fleet.sheet(viewer, fitted.aircraftId(), at.view()).registration();
    return Answers.page(
        at.status(),
        new ComponentDirectives(
            component.sheet(),
            registration,
            report.ofComponent(viewer, id, at.view()),
            at,
            mayAssess(at)));
  }

  private boolean mayAssess(AsAt at) {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER) && !at.isPast();
  }
}
