package trestle.apron;

import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.util.List;
import trestle.formats.Json;
import trestle.formats.JsonText;
import trestle.web.FieldError;
import trestle.web.Form;
import trestle.web.Problem;

/** What the phone's outbox is told: an acknowledgement, or what is wrong (RFC 9457). */
final class ReportJson {
  private ReportJson() {}

  static Response received(Reports.Received received, String link) {
    return answer(Json.object().put("receivedAs", received.number()).put("link", link).build());
  }

  static Response answer(Json json) {
    return Response.ok(JsonText.write(json), MediaType.APPLICATION_JSON_TYPE.withCharset("UTF-8"))
        .header("Cache-Control", "no-store")
        .build();
  }

  /** Nothing was filed; each error names its field of the form, with the sentence to show. */
  static Response problem(int status, Form form) {
    List<FieldError> errors =
        form.errors().stream()
            .map(
                error ->
                    new FieldError(
                        error.field().isEmpty() ? "" : "/" + error.field(),
                        Json.of(form.value(error.field())),
                        error.sentence()))
            .toList();
    String detail = String.join(" ", form.errors().stream().map(e -> e.sentence()).toList());
    return new Problem(status, detail, errors).response();
  }
}
