package trestle.web;

import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Inject;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.core.Response;
import java.util.Set;
import org.jboss.resteasy.reactive.server.ServerRequestFilter;
import org.jboss.resteasy.reactive.server.WithFormRead;
import org.jboss.resteasy.reactive.server.core.CurrentRequestManager;
import org.jboss.resteasy.reactive.server.core.multipart.FormData;
import org.jboss.resteasy.reactive.server.multipart.FormValue;

/**
 * Lets nothing that changes something through to a page unless it carries its browser's token, and
 * nothing at all that another site's page sends. The API is left alone, since it takes no cookies.
 */
class FormTokenFilter {
  private static final Set<String> SAFE = Set.of("GET", "HEAD", "OPTIONS");

  @Inject FormToken token;
  @Inject FailurePages failures;

  @ServerRequestFilter
  @WithFormRead
  Response check(ContainerRequestContext request, RoutingContext context) {
    if (SAFE.contains(request.getMethod()) || request.getUriInfo().getPath().startsWith("/api/")) {
      return null;
    }
    if ("cross-site".equals(request.getHeaderString("Sec-Fetch-Site"))) {
      return failures.of(403);
    }
    FormData form = CurrentRequestManager.get().getFormData();
    if (form == null) {
      return failures.of(403);
    }
    FormValue sent = form.getFirst(FormToken.FIELD);
    return token.isRight(context, sent == null ? null : sent.getValue())
        ? null
        : failures.sendAgain(KeptForm.of(context.request().uri(), form));
  }
}
