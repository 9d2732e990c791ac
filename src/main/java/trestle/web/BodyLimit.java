package trestle.web;

import io.quarkus.vertx.http.runtime.VertxHttpRecorder;
import io.quarkus.vertx.http.runtime.filters.Filters;
import io.vertx.core.http.HttpHeaders;
import io.vertx.core.http.HttpServerRequest;
import io.vertx.core.http.HttpServerResponse;
import io.vertx.ext.web.RoutingContext;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Response;
import java.util.Locale;

/** Refuses a request that announces too large a body, before reading any of it. */
@ApplicationScoped
public class BodyLimit {

  /** The most that a request to the API may carry: 1 MiB. */
  public static final int MOST_BYTES = 1 << 20;

  /** The most that an ordinary page may carry. */
  private static final long MOST_OF_PAGES = 2 << 20;

  /**
   * Up to here what still comes is dropped unread, so that a client that sends before it listens
   * hears the answer; beyond, the connection is closed on it.
   */
  private static final long MOST_DROPPED = 16L << 20;

  /** Likewise of a page with photos, whose sender has chosen one too many. */
  private static final long MOST_PHOTOS_DROPPED = 128L << 20;

  /** After Quarkus has noted its own limit of every body, sent in pieces or not. */
  private static final int LATE = 1;

  /** Before the limit that holds for every request, which answers without a word. */
  private static final int EARLY = 1_000;

  @Inject FailurePages pages;

  public static Problem tooLarge() {
    return new Problem(413, "The body is larger than 1 MiB.");
  }

  void register(@Observes Filters filters) {
    filters.register(this::check, EARLY);
    filters.register(BodyLimit::limit, LATE);
  }

  /** What is sent in pieces announces no length: it is cut off where it grows too large. */
  private static void limit(RoutingContext context) {
    if (!hasFiles(context.request())) {
      context.put(VertxHttpRecorder.MAX_REQUEST_SIZE_KEY, MOST_OF_PAGES);
    }
    context.next();
  }

  private void check(RoutingContext context) {
    HttpServerRequest request = context.request();
    boolean api = request.path().startsWith("/api/");
    boolean files = hasFiles(request);
    long length = announced(request);
    if (length <= (api ? MOST_BYTES : files ? Upload.MOST_BYTES : MOST_OF_PAGES)) {
      context.next();
      return;
    }
    answer(
        context,
        length <= (files ? MOST_PHOTOS_DROPPED : MOST_DROPPED),
        api ? tooLarge().response() : pages.tooLarge(files));
  }

  /** A form with file fields; pages without any refuse its media type unread. */
  private static boolean hasFiles(HttpServerRequest request) {
    String type = request.getHeader(HttpHeaders.CONTENT_TYPE);
    return !request.path().startsWith("/api/")
        && type != null
        && type.toLowerCase(Locale.ROOT).startsWith("multipart/form-data");
  }

  private static void answer(RoutingContext context, boolean drops, Response refusal) {
    HttpServerResponse response =
        context
            .response()
            .setStatusCode(refusal.getStatus())
            .putHeader(HttpHeaders.CONTENT_TYPE, refusal.getMediaType().toString());
    if (drops) {
      context.request().resume();
    } else {
      response.putHeader(HttpHeaders.CONNECTION, HttpHeaders.CLOSE);
    }
    response.end((String) refusal.getEntity());
  }

  private static long announced(HttpServerRequest request) {
    String length = request.getHeader(HttpHeaders.CONTENT_LENGTH);
    return length != null && length.matches("[0-9]{1,18}") ? Long.parseLong(length) : 0;
  }
}
