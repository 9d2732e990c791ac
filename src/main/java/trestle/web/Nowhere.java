package trestle.web;

import io.vertx.core.http.HttpHeaders;
import io.vertx.ext.web.Router;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Response;

/** Answers for every address that nothing else answers for: a problem under /api/, else a page. */
@ApplicationScoped
class Nowhere {

  /** After everything that may know the address. */
  private static final int LATE = 30_000;

  @Inject FailurePages pages;

  void register(@Observes Router router) {
    router.route("/api/*").order(LATE).handler(this::problem);
    router.route().order(LATE + 1).handler(this::page);
  }

  private void problem(RoutingContext context) {
    answer(context, ApiProblems.of(404).response());
  }

  private void page(RoutingContext context) {
    answer(context, pages.nowhere());
  }

  private static void answer(RoutingContext context, Response answer) {
    context
        .response()
        .setStatusCode(answer.getStatus())
        .putHeader(HttpHeaders.CONTENT_TYPE, answer.getMediaType().toString())
        .putHeader(HttpHeaders.CACHE_CONTROL, "no-store")
        .end((String) answer.getEntity());
  }
}
