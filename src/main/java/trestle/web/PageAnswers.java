package trestle.web;

import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Inject;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.ArrayList;
import java.util.List;
import org.jboss.resteasy.reactive.server.ServerResponseFilter;

/**
 * The last look at each answer: pages are not kept by the browser and name what they are shown with
 * before their text begins, an answer over TLS asks to stay there, and a refusal without a word
 * gets its page.
 */
class PageAnswers {
  private static final String TWO_YEARS = "max-age=63072000";

  @Inject FailurePages failures;
  @Inject Assets assets;

  @ServerResponseFilter
  void filter(
      ContainerRequestContext request, ContainerResponseContext answer, RoutingContext context) {
    boolean page = !request.getUriInfo().getPath().startsWith("/api/");
    if (page && answer.getStatus() >= 400 && !answer.hasEntity()) {
      Response better = failures.of(answer.getStatus());
      answer.setEntity(better.getEntity(), null, better.getMediaType());
    }
    MultivaluedMap<String, Object> headers = answer.getHeaders();
    if (isHtml(answer.getMediaType())) {
      headers.putSingle("Link", assets.neededFirst());
      headers.computeIfAbsent("Cache-Control", name -> new ArrayList<>(List.of("no-store")));
    }
    if (context.request().isSSL()) {
      headers.putSingle("Strict-Transport-Security", TWO_YEARS);
    }
  }

  private static boolean isHtml(MediaType type) {
    return type != null && type.isCompatible(MediaType.TEXT_HTML_TYPE);
  }
}
