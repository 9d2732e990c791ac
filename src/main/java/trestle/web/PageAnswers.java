package trestle.web;

import io.vertx.core.MultiMap;
import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Inject;
import jakarta.ws.rs.container.ContainerRequestContext;
import jakarta.ws.rs.container.ContainerResponseContext;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.jboss.resteasy.reactive.server.ServerResponseFilter;

/**
 * The last look at each answer: pages are not kept by the browser and name what they are shown with
 * before their text begins, an answer over TLS asks to stay there, and a refusal without a word
 * gets its page. A page that carries its style is allowed that style. A page with a long part is
 * put together here, packed where that is asked for.
 */
class PageAnswers {
  private static final Pattern GZIP =
      Pattern.compile("(?:^|,)\\s*gzip\\s*(?:,|$|;\\s*q=(?:1|0\\.0*[1-9]))");
  private static final String POLICY = "Content-Security-Policy";
  private static final String OUR_STYLES = "style-src 'self'";
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
    if (answer.getEntity() instanceof LongPage whole) {
      putTogether(whole, takesGzip(request.getHeaderString("Accept-Encoding")), answer);
    }
    // Asked for only now: another entity comes with headers of its own.
    MultivaluedMap<String, Object> headers = answer.getHeaders();
    if (isHtml(answer.getMediaType())) {
      boolean styled = answer.getEntity() instanceof String html && Assets.isStyledWithin(html);
      headers.putSingle("Link", assets.neededFirst(styled));
      if (styled) {
        allowStyleWithin(context.response().headers());
      }
      headers.computeIfAbsent("Cache-Control", name -> new ArrayList<>(List.of("no-store")));
    }
    if (context.request().isSSL()) {
      headers.putSingle("Strict-Transport-Security", TWO_YEARS);
    }
  }

  /** In place of the policy set before: of two, a browser keeps to the stricter. */
  private void allowStyleWithin(MultiMap headers) {
    String policy = headers.get(POLICY);
    headers.set(POLICY, policy.replace(OUR_STYLES, OUR_STYLES + " " + assets.styleSource()));
  }

  private static void putTogether(LongPage whole, boolean packed, ContainerResponseContext answer) {
    answer.setEntity(packed ? whole.gzip() : whole.html(), null, answer.getMediaType());
    if (packed) {
      answer.getHeaders().putSingle("Content-Encoding", "gzip");
    }
  }

  private static boolean isHtml(MediaType type) {
    return type != null && type.isCompatible(MediaType.TEXT_HTML_TYPE);
  }

  /** "gzip, deflate, br", but not "gzip;q=0". */
  private static boolean takesGzip(String accepted) {
    return accepted != null && GZIP.matcher(accepted).find();
  }
}
