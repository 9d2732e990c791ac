package trestle.programme;

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

/** The documents of one aircraft, and the files that were filed with records of compliance. */
@Path("/")
@RequestScoped
public class DocumentPages {
  @Inject Documents documents;
  @Inject DocumentFiles files;
  @Inject Fleet fleet;
  @Inject Views views;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record AircraftDocuments(
      AircraftSheet aircraft, AsAt at, List<Documents.Line> lines, boolean mayFile, boolean mayAdd)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/documents")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofAircraft(@PathParam("id") UUID id, @Context UriInfo uri) {
    AsAt at = views.asked(viewer, uri.getQueryParameters());
    AircraftSheet aircraft = fleet.sheet(viewer, id, at.view());
    return Answers.page(
        at.status(),
        new AircraftDocuments(
            aircraft,
            at,
            documents.of(viewer, aircraft, at.view()),
            at.isNow() && viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER),
            at.isNow() && viewer.isAny(Role.OWNER, Role.CONTROLLER)));
  }

  /** nosniff comes with every answer; what a hash names never changes. */
  @GET
  @Path("compliance-files/{paper}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response file(@PathParam("paper") String sha256) {
    DocumentFiles.Draft file = files.file(viewer, sha256);
    String ends = file.mediaType().replaceAll(".*/", ".").replace(".jpeg", ".jpg");
    String name =
        file.name().replaceAll("(?i)\\.(pdf|jpe?g|png)$", "").replaceAll("[^A-Za-z0-9._-]", "-");
    return Response.ok(file.bytes(), file.mediaType())
        .header("Cache-Control", "private, max-age=31536000, immutable")
        .header(
            "Content-Disposition",
            (file.isPicture() ? "inline" : "attachment") + "; filename=\"" + name + ends + "\"")
        .build();
  }
}
