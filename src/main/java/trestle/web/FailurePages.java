package trestle.web;

import io.quarkus.arc.Arc;
import io.quarkus.logging.Log;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.quarkus.security.ForbiddenException;
import io.quarkus.vertx.http.runtime.CurrentVertxRequest;
import io.vertx.core.http.HttpMethod;
import io.vertx.ext.web.RoutingContext;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.WebApplicationException;
import jakarta.ws.rs.container.ResourceInfo;
import jakarta.ws.rs.core.HttpHeaders;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Supplier;
import org.jboss.resteasy.reactive.server.ServerExceptionMapper;
import org.jboss.resteasy.reactive.server.core.CurrentRequestManager;
import org.jboss.resteasy.reactive.server.core.multipart.FormData;

/**
 * What a person sees when a request cannot be answered: a page with one sentence on what is the
 * matter and what to do; never a class name. Under /api it is a {@link Problem} instead.
 */
@ApplicationScoped
class FailurePages {
  private static final int RETRY_AFTER_SECONDS = 10;
  private static final String FORM_REFUSED = "This could not be filed";

  private record Words(String title, String sentence) {}

  private static final Map<Integer, Words> WORDS =
      Map.of(
          400, new Words("This was not understood", "Go back, look at the page again and resend."),
          401, new Words("Sign in first", "Sign in, then open the page again."),
          403,
              new Words(
                  "This is not yours to do",
                  "Your roles do not open this page. Ask an owner of your operator if you need it."),
          404, new Words("Nothing here", "There is no such page, or it is not in your operator."),
          405,
              new Words(
                  "Not like this",
                  "Nothing was filed. Open the page with the form, fill it in and send it from there."),
          413,
              new Words(
                  "This is too much to send",
                  "A page may carry at most 2 MB. Nothing was filed: go back and send less."),
          415,
              new Words(
                  "Not like this",
                  "Nothing was filed. Open the page with the form, fill it in and send it from there."));

  private static final Words OTHER =
      new Words("This went wrong", "Nothing was filed. Go back and try again.");

  private static final Viewer NOBODY =
      new Viewer(null, "", false, null, null, ZoneOffset.UTC, true, Set.of());

  @Inject Frame frame;
  @Inject CurrentVertxRequest request;

  /**
   * @param reasons further sentences, one a line
   * @param reference what to name when asking for help, or ""
   * @param kept a form to send again, or null
   */
  @CheckedTemplate(basePath = "web", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Failure(
      String title, String sentence, List<String> reasons, String reference, KeptForm kept)
      implements TemplateInstance {}

  @ServerExceptionMapper
  Response refused(Refusal refusal, UriInfo uri) {
    List<String> sentences = refusal.reasons().stream().map(Refusal.Reason::sentence).toList();
    return isApi(uri)
        ? new Problem(422, String.join(" ", sentences)).response()
        : page(422, FORM_REFUSED, "Nothing was filed. Go back and put this right:", sentences);
  }

  @ServerExceptionMapper
  Response stale(Stale stale, UriInfo uri) {
    return isApi(uri)
        ? new Problem(409, stale.getMessage()).response()
        : page(409, "Someone else was here first", stale.getMessage(), List.of());
  }

  @ServerExceptionMapper
  Response notHere(NotHere notHere, UriInfo uri) {
    return isApi(uri)
        ? new Problem(404, notHere.getMessage()).response()
        : page(404, WORDS.get(404).title(), notHere.getMessage(), List.of());
  }

  @ServerExceptionMapper
  Response forbidden(ForbiddenException forbidden, UriInfo uri, ResourceInfo resource) {
    return isApi(uri)
        ? ApiProblems.of(403).response()
        : page(403, WORDS.get(403).title(), whoMay(resource), List.of());
  }

  @ServerExceptionMapper
  Response refusedByTheServer(WebApplicationException refused, UriInfo uri) {
    Response own = refused.getResponse();
    if (own.hasEntity() || own.getStatus() < 400) {
      return own;
    }
    Response answer = isApi(uri) ? ApiProblems.of(own.getStatus()).response() : of(own.getStatus());
    return Response.fromResponse(answer).replaceAll(withContent(own, answer)).build();
  }

  @ServerExceptionMapper
  Response failed(Throwable failure, UriInfo uri) {
    Optional<Outage> outage = WallsRepository.outageIn(failure);
    if (outage.isPresent()) {
      Log.errorf("%s: %s", outage.get().title(), uri.getPath());
      FormData sent = CurrentRequestManager.get().getFormData();
      KeptForm kept = sent == null ? null : KeptForm.of(uri.getRequestUri().getPath(), sent);
      return unavailable(outage.get(), isApi(uri), isSent(), kept);
    }
    String reference = UUID.randomUUID().toString().substring(0, 8);
    Log.errorf(failure, "Failed, reference %s: %s", reference, uri.getPath());
    return isApi(uri)
        ? new Problem(500, "The server could not answer; reference " + reference + ".").response()
        : Answers.page(
            500, new Failure(OTHER.title(), OTHER.sentence(), List.of(), reference, null));
  }

  /** Whoever is asking could not be found out, so that nothing else of the request was heard. */
  Response unavailable(Outage outage, boolean api, boolean sent, KeptForm kept) {
    Response answer =
        api
            ? new Problem(503, outage.title() + ". " + outage.sentence(sent)).response()
            : outsideOfRequests(
                () ->
                    Answers.page(
                        503,
                        new Failure(outage.title(), outage.sentence(sent), List.of(), "", kept)));
    return Response.fromResponse(answer).header("Retry-After", RETRY_AFTER_SECONDS).build();
  }

  private boolean isSent() {
    RoutingContext asked = request.getCurrent();
    return asked != null && !asked.request().method().equals(HttpMethod.GET);
  }

  /** The page for a status that nobody has better words for. */
  Response of(int status) {
    Words words = WORDS.getOrDefault(status, OTHER);
    return page(status, words.title(), words.sentence(), List.of());
  }

  /** The form as it was sent, to be sent again by its sender: its token is missing or outdated. */
  Response sendAgain(KeptForm kept) {
    String sentence =
        "The page had been open for long, or in another window. Nothing was filed and nothing you"
            + " typed is lost: go on, look it over and send it again.";
    return Answers.page(403, new Failure("Please send this again", sentence, List.of(), "", kept));
  }

  /** For requests that are refused before anybody is asked who they are. */
  Response tooLarge(boolean files) {
    return outsideOfRequests(() -> files ? tooManyPhotos() : of(413));
  }

  Response nowhere() {
    return outsideOfRequests(() -> of(404));
  }

  private static Response tooManyPhotos() {
    return page(
        413,
        "These files are too much to send",
        "A photo may have 10 MB, and all of a page, or a record pack, 45 MB. Nothing was filed: go"
            + " back and send fewer or smaller ones.",
        List.of());
  }

  private Response outsideOfRequests(Supplier<Response> answer) {
    var context = Arc.container().requestContext();
    boolean opened = !context.isActive();
    if (opened) {
      context.activate();
    }
    try {
      if (opened) {
        frame.show(NOBODY);
      }
      return answer.get();
    } finally {
      if (opened) {
        context.terminate();
      }
    }
  }

  private static Response page(int status, String title, String sentence, List<String> reasons) {
    return Answers.page(status, new Failure(title, sentence, reasons, "", null));
  }

  /** "This page is for an owner or controller. You are I. Tarn, pilot." */
  private String whoMay(ResourceInfo resource) {
    RolesAllowed allowed = resource.getResourceMethod().getAnnotation(RolesAllowed.class);
    if (allowed == null) {
      allowed = resource.getResourceClass().getAnnotation(RolesAllowed.class);
    }
    if (allowed == null) {
      return WORDS.get(403).sentence();
    }
    String roles = String.join(" or ", allowed.value());
    return "This may be done by: " + roles + ". You are signed in as " + frame.who() + ".";
  }

  private static MultivaluedMap<String, Object> withContent(Response own, Response answer) {
    var headers = new MultivaluedHashMap<String, Object>(own.getHeaders());
    headers.putSingle("Content-Type", answer.getMediaType());
    return headers;
  }

  /** Asked by a program rather than a person: the API, or a script of one of our pages. */
  private boolean isApi(UriInfo uri) {
    RoutingContext asked = request.getCurrent();
    String accepts = asked == null ? null : asked.request().getHeader(HttpHeaders.ACCEPT);
    return uri.getPath().startsWith("/api/")
        || accepts != null && accepts.startsWith(MediaType.APPLICATION_JSON);
  }
}
