package trestle.web;

import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpMethod;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.ext.web.Router;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Response;
import java.util.Optional;

/**
 * Answers requests that fail for want of a database before anybody knows who is asking. A form is
 * heard out first and handed back, to be sent again.
 */
@ApplicationScoped
class Outages {
  /** Before everything that would answer without a word. */
  private static final int EARLY = -1_000;

  @Inject FailurePages pages;

  void register(@Observes Router router) {
    router.route().order(EARLY).failureHandler(this::answer);
  }

  private void answer(RoutingContext context) {
    Optional<Outage> outage = WallsRepository.outageIn(context.failure());
    if (outage.isEmpty() || context.response().headWritten()) {
      context.next();
      return;
    }
    HttpServerRequest request = context.request();
    if (!request.method().equals(HttpMethod.POST) || request.isEnded()) {
      answer(context, outage.get(), null);
      return;
    }
    request.setExpectMultipart(true);
    request.endHandler(
        end ->
            answer(context, outage.get(), KeptForm.of(request.path(), request.formAttributes())));
    request.resume();
  }

  private void answer(RoutingContext context, Outage outage, KeptForm kept) {
    HttpServerRequest request = context.request();
    String accepts = request.getHeader(HttpHeaders.ACCEPT);
    boolean api =
        request.path().startsWith("/api/")
            || accepts != null && accepts.startsWith("application/json");
    Response answer =
        pages.unavailable(outage, api, !request.method().equals(HttpMethod.GET), kept);
    context
        .response()
        .setStatusCode(answer.getStatus())
        .putHeader(HttpHeaders.CONTENT_TYPE, answer.getMediaType().toString())
        .putHeader(HttpHeaders.CACHE_CONTROL, "no-store")
        .putHeader("Retry-After", answer.getHeaderString("Retry-After"))
        .end((String) answer.getEntity());
  }
}
