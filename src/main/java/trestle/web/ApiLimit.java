package trestle.web;

import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.core.http.HttpServerResponse;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.ws.rs.core.Response;

/** Refuses a request to the API that announces too large a body, before reading any of it. */
@ApplicationScoped
public class ApiLimit {

  /** The most that a request to the API may carry: 1 MiB. */
  public static final int MOST_BYTES = 1 << 20;

  /**
   * Up to here what still comes is dropped unread, so that a client that sends before it listens
   * hears the answer; beyond, the connection is closed on it.
   */
  private static final long MOST_DROPPED = 16L << 20;

  /** Before the limit that holds for every request, which answers without a problem. */
  private static final int EARLY = 1_000;

  public static Problem tooLarge() {
    return new Problem(413, "The body is larger than 1 MiB.");
  }

  void register(@Observes Filters filters) {
    filters.register(ApiLimit::check, EARLY);
  }

  private static void check(RoutingContext context) {
    HttpServerRequest request = context.request();
    long length = announced(request);
    if (length <= MOST_BYTES || !request.path().startsWith("/api/")) {
      context.next();
      return;
    }
    Response refusal = tooLarge().response();
    HttpServerResponse response =
        context
            .response()
            .setStatusCode(refusal.getStatus())
            .putHeader(HttpHeaders.CONTENT_TYPE, Problem.MEDIA_TYPE);
    if (length > MOST_DROPPED) {
      response.putHeader(HttpHeaders.CONNECTION, HttpHeaders.CLOSE);
    } else {
      request.resume();
    }
    response.end((String) refusal.getEntity());
  }

  private static long announced(HttpServerRequest request) {
    String length = request.getHeader(HttpHeaders.CONTENT_LENGTH);
    return length != null && length.matches("[0-9]{1,18}") ? Long.parseLong(length) : 0;
  }
}
