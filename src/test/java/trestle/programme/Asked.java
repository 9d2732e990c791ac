package trestle.programme;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.ws.rs.core.Response;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** What the stateless check answered, without HTTP between. */
record Asked(int status, JsonNode answer) {

  static final ObjectMapper JSON = new ObjectMapper();

  static Asked of(String body) {
    return of(body.getBytes(StandardCharsets.UTF_8));
  }

  static Asked of(byte[] body) {
    Response response = ReckoningApi.answer(body);
    return new Asked(response.getStatus(), tree((String) response.getEntity()));
  }

  static JsonNode tree(String text) {
    try {
      return JSON.readTree(text);
    } catch (com.fasterxml.jackson.core.JsonProcessingException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The fields that the problem names, in its order. */
  List<String> fields() {
    List<String> fields = new ArrayList<>();
    answer.path("errors").forEach(error -> fields.add(error.get("field").asText()));
    return fields;
  }
}
