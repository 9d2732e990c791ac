package trestle.web;

import io.vertx.core.http.HttpHeaders;
import io.vertx.ext.web.Router;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.ws.rs.core.Response;

/** Answers for every address under {@code /api/} that nothing else answers for. */
@ApplicationScoped
class ApiNowhere {

  /** After everything that may know the address, before the page for people. */
  private static final int LATE = 30_000;

  void register(@Observes Router router) {
    router.route("/api/*").order(LATE).handler(ApiNowhere::answer);
  }

  private static void answer(RoutingContext context) {
    Response problem = ApiProblems.of(404).response();
    context
        .response()
        .setStatusCode(problem.getStatus())
        .putHeader(HttpHeaders.CONTENT_TYPE, Problem.MEDIA_TYPE)
        .end((String) problem.getEntity());
  }
}
