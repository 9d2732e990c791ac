package trestle.web;

import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.core.http.HttpServerResponse;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Response;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/** Refuses a request that announces too large a body, before reading any of it. */
@ApplicationScoped
public class BodyLimit {

  /** The most that a request to the API may carry: 1 MiB. */
  public static final int MOST_BYTES = 1 << 20;

  /**
   * Up to here what still comes is dropped unread, so that a client that sends before it listens
   * hears the answer; beyond, the connection is closed on it.
   */
  private static final long MOST_DROPPED = 16L << 20;

  /** Before the limit that holds for every request, which answers without a word. */
  private static final int EARLY = 1_000;

  @Inject FailurePages pages;

  @ConfigProperty(name = "quarkus.http.limits.max-body-size")
  io.quarkus.runtime.configuration.MemorySize ofPages;

  public static Problem tooLarge() {
    return new Problem(413, "The body is larger than 1 MiB.");
  }

  void register(@Observes Filters filters) {
    filters.register(this::check, EARLY);
  }

  private void check(RoutingContext context) {
    HttpServerRequest request = context.request();
    boolean api = request.path().startsWith("/api/");
    long length = announced(request);
    if (length <= (api ? MOST_BYTES : ofPages.asLongValue())) {
      context.next();
      return;
    }
    answer(context, length, api ? tooLarge().response() : pages.tooLarge());
  }

  private static void answer(RoutingContext context, long length, Response refusal) {
    HttpServerResponse response =
        context
            .response()
            .setStatusCode(refusal.getStatus())
            .putHeader(HttpHeaders.CONTENT_TYPE, refusal.getMediaType().toString());
    if (length > MOST_DROPPED) {
      response.putHeader(HttpHeaders.CONNECTION, HttpHeaders.CLOSE);
    } else {
      context.request().resume();
    }
    response.end((String) refusal.getEntity());
  }

  private static long announced(HttpServerRequest request) {
    String length = request.getHeader(HttpHeaders.CONTENT_LENGTH);
    return length != null && length.matches("[0-9]{1,18}") ? Long.parseLong(length) : 0;
  }
}
