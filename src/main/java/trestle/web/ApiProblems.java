package trestle.web;

import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.container.ContainerResponseFilter;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.ext.Provider;
import java.util.Map;

/**
 * Whatever goes wrong under {@code /api/} is answered as a problem (RFC 9457), also where the
 * server itself refuses: an unknown path, another method, another media type.
 */
@Provider
public class ApiProblems implements ContainerResponseFilter {

  private static final MediaType PROBLEM = MediaType.valueOf(Problem.MEDIA_TYPE);

  private static final Map<Integer, String> SENTENCES =
      Map.of(
          401, "Sign in with a token.",
          403, "This is not yours to do.",
          404, "There is nothing under this address.",
          405, "This address does not answer that method.",
          406, "This address answers in JSON.",
          413, "The body is larger than 1 MiB.",
          415, "The body must be sent as application/json.");

  @Override
  public void filter(ContainerRequestContext request, ContainerResponseContext response) {
    int status = response.getStatus();
    if (status < 400
        || PROBLEM.equals(response.getMediaType())
        || !request.getUriInfo().getPath().startsWith("/api/")) {
      return;
    }
    response.setEntity(of(status).response().getEntity(), null, PROBLEM);
  }

  /** The problem for a status that has no better words. */
  static Problem of(int status) {
    String other = status < 500 ? "The request was refused." : "The server could not answer.";
    return new Problem(status, SENTENCES.getOrDefault(status, other));
  }
}
