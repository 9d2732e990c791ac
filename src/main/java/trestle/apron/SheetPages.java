package trestle.apron;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Shown;
import trestle.web.Viewer;

/** The sheet to carry: one page of paper. */
@Path("/")
@RequestScoped
public class SheetPages {
  @Inject Sheets sheets;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record SheetPage(Sheet sheet, String operator, String at) implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/sheet")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response show(@PathParam("id") UUID id) {
    return Answers.page(
        new SheetPage(
            sheets.of(viewer, id),
            viewer.operatorName(),
            Shown.moment(clock.instant(), viewer.zone())));
  }
}
