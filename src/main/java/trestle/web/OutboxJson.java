package trestle.web;

import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import trestle.formats.Json;
import trestle.formats.JsonText;

/** What the phone's outbox is told: an acknowledgement, or what is wrong (RFC 9457). */
public final class OutboxJson {
  private OutboxJson() {}

  /** Whether the outbox asks, and not a person's browser. */
  public static boolean isAsked(String accept) {
    return accept != null && accept.contains(MediaType.APPLICATION_JSON);
  }

  /**
   * It stands on disk.
   *
   * @param what the number is of, like "defect", or "" where it is the ledger's
   */
  public static Response received(String what, long number, String link) {
    return answer(
        Json.object().put("receivedAs", number).put("what", what).put("link", link).build());
  }

  public static Response answer(Json json) {
    return Response.ok(JsonText.write(json), MediaType.APPLICATION_JSON_TYPE.withCharset("UTF-8"))
        .header("Cache-Control", "no-store")
        .build();
  }

  /**
   * Nothing was filed; each error names its field of the form, with the sentence to show.
   *
   * @param asks whether it is right in itself, and the person is only asked to look once more
   * @param filed where stands what this form has filed before, or null
   */
  public static Response problem(int status, Form form, boolean asks, String filed) {
    List<FieldError> errors = form.errors().stream().map(error -> error(form, error)).toList();
    String detail =
        form.errors().stream().map(Refusal.Reason::sentence).collect(Collectors.joining(" "));
    Json.Obj said = (Json.Obj) new Problem(status, detail, errors).toJson();
    List<Json.Member> members = new ArrayList<>(said.members());
    if (asks) {
      members.add(new Json.Member("asks", Json.of(true)));
    }
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
