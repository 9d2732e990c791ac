package trestle.people;

import io.quarkus.security.AuthenticationFailedException;
import io.quarkus.security.UnauthorizedException;
import io.smallrye.mutiny.Uni;
import io.smallrye.mutiny.infrastructure.Infrastructure;
import io.vertx.core.http.HttpMethod;
import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Response;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import org.jboss.resteasy.reactive.server.ServerExceptionMapper;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.KeptForm;

/**
 * Nobody is signed in, or no longer: a page asks to sign in and then goes on; a form is kept whole
 * and comes back after signing in.
 */
class SignInErrors {
  @Inject SignInPages pages;

  @ServerExceptionMapper({UnauthorizedException.class, AuthenticationFailedException.class})
  Uni<Response> signInFirst(RoutingContext request) {
    if (request.normalizedPath().startsWith("/api/")) {
      return Uni.createFrom().item(Response.status(401).build());
    }
    if (!request.request().method().equals(HttpMethod.POST)) {
      String next = URLEncoder.encode(request.request().uri(), StandardCharsets.UTF_8);
      return Uni.createFrom().item(Answers.see("/sign-in?next=" + next));
    }
    return keptForm(request)
        .emitOn(Infrastructure.getDefaultWorkerPool())
        .map(kept -> Answers.page(401, pages.page(Form.blank(), kept)));
  }

  /** Nothing has read the form yet, since it is refused before its method is called. */
  private static Uni<KeptForm> keptForm(RoutingContext request) {
    return Uni.createFrom()
        .emitter(
            emitter -> {
              var http = request.request();
              http.setExpectMultipart(true);
              http.exceptionHandler(emitter::fail);
              http.endHandler(
                  end -> emitter.complete(KeptForm.of(http.path(), http.formAttributes())));
              http.resume();
            });
  }
}
