package trestle.profiles;

import com.fasterxml.jackson.annotation.JsonValue;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import trestle.formats.CanonicalJson;
import trestle.web.Role;

/** A profile as JSON: how it is filed, and how the shipped examples are written. */
final class ProfileJson {
  private static final ObjectMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .addMixIn(Role.class, RoleWord.class)
          .build();

  private abstract static class RoleWord {
    @JsonValue
    abstract String word();
  }

  private ProfileJson() {}

  static RuleProfile parse(String text) {
    try {
      return JSON.readValue(text, RuleProfile.class);
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException("not a rule profile: " + e.getOriginalMessage(), e);
    }
  }

  static String text(RuleProfile profile) {
    return CanonicalJson.of(tree(profile));
  }

  static JsonNode tree(RuleProfile profile) {
    return JSON.valueToTree(profile);
  }

  static <T> T read(InputStream from, Class<T> as) {
    try (from) {
      return JSON.readValue(from, as);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
