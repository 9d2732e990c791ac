package trestle.workshop.paper;

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
import java.time.InstantSource;
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Viewer;

/** The log entry of a pilot's own work (14 CFR 43.9(a)), as PDF. */
@Path("/")
@RequestScoped
public class PilotPaperPages {
  @Inject Papers papers;
  @Inject InstantSource clock;
  @Inject Viewer viewer;
  @Context UriInfo uri;

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PaperPilotWork(PilotPaper paper, String address, String size)
      implements TemplateInstance {}

  @GET
  @Path("pilot-works/{id}/entry.pdf")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response entry(@PathParam("id") UUID id) {
    PilotPaper paper = papers.ofPilotWork(viewer, id, clock.instant());
    return PaperPages.pdf(
        "pilot-work-" + paper.aircraft().registration(),
        new PaperPilotWork(paper, uri.getBaseUri().toString(), PaperPages.A4));
  }
}
