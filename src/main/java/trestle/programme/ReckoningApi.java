package trestle.programme;

import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.PermitAll;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import trestle.formats.Json;
import trestle.formats.JsonText;
import trestle.formats.MalformedJson;
import trestle.web.BodyLimit;
import trestle.web.FieldError;
import trestle.web.JsonInput;
import trestle.web.Problem;

/**
 * The stateless check of the arithmetic. It reads and stores nothing but the body, so it asks
 * nobody who they are.
 */
@Path("/api/v1/reckonings")
public class ReckoningApi {

  /** Reckons one case or a list of cases; described in docs/reckoning.md. */
  @POST
  @PermitAll
  @Blocking
  @Consumes(MediaType.APPLICATION_JSON)
  @Produces({MediaType.APPLICATION_JSON, Problem.MEDIA_TYPE})
  public Response reckon(InputStream body) throws IOException {
    byte[] bytes = body.readNBytes(BodyLimit.MOST_BYTES + 1);
    return bytes.length > BodyLimit.MOST_BYTES ? BodyLimit.tooLarge().response() : answer(bytes);
  }

  static Response answer(byte[] body) {
    List<FieldError> errors = new ArrayList<>();
    try {
      Json answer = ReckoningJson.answer(JsonText.parse(body), errors);
      if (answer != null) {
        return Response.ok(JsonText.write(answer), MediaType.APPLICATION_JSON).build();
      }
    } catch (JsonInput.TooMuchWrong e) {
      return Problem.badRequest(errors).response();
    } catch (MalformedJson e) {
      errors.add(new FieldError("", Json.NULL, "the body " + e.getMessage()));
    }
    return Problem.badRequest(errors).response();
  }
}
