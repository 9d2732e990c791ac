package trestle.apron;

import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import trestle.formats.Json;
import trestle.formats.JsonText;
import trestle.web.FieldError;
import trestle.web.Form;
import trestle.web.Problem;
import trestle.web.Refusal;

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

  /**
   * Nothing was filed; each error names its field of the form, with the sentence to show.
   *
   * @param filed where stands what this form has filed before, or null
   */
  static Response problem(int status, Form form, String filed) {
    List<FieldError> errors = form.errors().stream().map(error -> error(form, error)).toList();
    String detail =
        form.errors().stream().map(Refusal.Reason::sentence).collect(Collectors.joining(" "));
    Json.Obj said = (Json.Obj) new Problem(status, detail, errors).toJson();
    List<Json.Member> members = new ArrayList<>(said.members());
    if (filed != null) {
      members.add(new Json.Member("link", Json.of(filed)));
    }
    return Response.status(status)
        .type(Problem.MEDIA_TYPE)
        .entity(JsonText.write(new Json.Obj(members)))
        .build();
  }

  private static FieldError error(Form form, Refusal.Reason error) {
    String pointer = error.field().isEmpty() ? "" : "/" + error.field();
    return new FieldError(pointer, Json.of(form.value(error.field())), error.sentence());
  }
}
