package trestle.defects;

import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import trestle.web.Allow;
import trestle.web.Viewer;

/** Kept photos, to members of the operator that keeps them. */
@Path("/")
@RequestScoped
public class PhotoPages {
  /** What a hash names never changes; but only who may see it may keep it. */
  private static final String FOR_EVER = "private, max-age=31536000, immutable";

  @Inject Photos photos;
  @Inject Viewer viewer;

  @GET
  @Path("photos/{sha}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response photo(@PathParam("sha") String sha) {
    return answer(photos.photo(viewer, sha), sha);
  }

  @GET
  @Path("photos/{sha}/thumbnail")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response thumbnail(@PathParam("sha") String sha) {
    return answer(photos.thumbnail(viewer, sha), sha + "-thumbnail");
  }

  /** nosniff comes with every answer; the name keeps a saved one from looking like a program. */
  private static Response answer(Photos.Kept kept, String name) {
    return Response.ok(kept.bytes(), kept.mediaType())
        .header("Cache-Control", FOR_EVER)
        .header(
            "Content-Disposition",
            "inline; filename=\"" + name.replaceAll("[^0-9a-z-]", "") + ".jpg\"")
        .build();
  }
}
