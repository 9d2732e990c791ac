package trestle.formats;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import org.erdtman.jcs.JsonCanonicalizer;

/** JSON in the one form that RFC 8785 gives it, so that equal content has equal bytes. */
public final class CanonicalJson {
  private static final ObjectMapper JSON = new ObjectMapper();

  private CanonicalJson() {}

  public static String of(JsonNode tree) {
    try {
      return new JsonCanonicalizer(JSON.writeValueAsString(tree)).getEncodedString();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static JsonNode parse(String text) {
    try {
      return JSON.readTree(text);
    } catch (JsonProcessingException e) {
      throw new UncheckedIOException(e);
    }
  }

  public static JsonNode tree(Object value) {
    return JSON.valueToTree(value);
  }
}
