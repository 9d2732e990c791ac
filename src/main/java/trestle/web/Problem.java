package trestle.web;

import jakarta.ws.rs.core.Response;
import java.util.List;
import trestle.formats.Json;
import trestle.formats.JsonText;

/** What went wrong with a request to the API, as RFC 9457 writes it. */
public record Problem(int status, String detail, List<FieldError> errors) {

  public static final String MEDIA_TYPE = "application/problem+json";

  /** Repeating more than this of what was sent helps nobody. */
  private static final int MOST_REPEATED = 200;

  public Problem {
    errors = List.copyOf(errors);
  }

  public Problem(int status, String detail) {
    this(status, detail, List.of());
  }

  /** A body that says something wrong, with all that is wrong. */
  public static Problem badRequest(List<FieldError> errors) {
    String things = errors.size() == 1 ? "One thing is" : errors.size() + " things are";
    return new Problem(400, things + " wrong with the request; nothing was done.", errors);
  }

  public Json toJson() {
    Json.Builder json =
        Json.object()
            .put("type", "about:blank")
            .put("title", title())
            .put("status", status)
            .put("detail", detail);
    if (!errors.isEmpty()) {
      json.put("errors", new Json.Arr(errors.stream().map(Problem::error).toList()));
    }
    return json.build();
  }

  public Response response() {
    return Response.status(status).type(MEDIA_TYPE).entity(JsonText.write(toJson())).build();
  }

  private String title() {
    Response.Status known = Response.Status.fromStatusCode(status);
    return known == null ? "HTTP status " + status : known.getReasonPhrase();
  }

  private static Json error(FieldError error) {
    return Json.object()
        .put("field", error.field())
        .put("value", repeated(error.value()))
        .put("reason", error.reason())
        .build();
  }

  private static Json repeated(Json value) {
    if (value instanceof Json.Str string) {
      return Json.of(shortened(string.text()));
    }
    String text = JsonText.write(value);
    return text.length() > MOST_REPEATED ? Json.of(shortened(text)) : value;
  }

  private static String shortened(String text) {
    if (text.length() <= MOST_REPEATED) {
      return text;
    }
    int end = Character.isHighSurrogate(text.charAt(MOST_REPEATED - 1)) ? 199 : MOST_REPEATED;
    return text.substring(0, end) + "…";
  }
}
