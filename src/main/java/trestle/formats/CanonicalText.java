package trestle.formats;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.erdtman.jcs.NumberToJSON;

/**
 * Writes RFC 8785 piece by piece into a text, many times faster than {@link CanonicalJson} and
 * apart from it: what one wrote the other checks.
 */
public final class CanonicalText {
  private static final String HEX = "0123456789abcdef";

  private CanonicalText() {}

  /** A string with its quotes: only what must be escaped is, in the shortest way (3.2.2.2). */
  public static void string(StringBuilder to, CharSequence text) {
    to.append('"');
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c >= ' ' && c != '"' && c != '\\') {
        to.append(c);
      } else {
        escaped(to, c);
      }
    }
    to.append('"');
  }

  private static void escaped(StringBuilder to, char c) {
    switch (c) {
      case '"' -> to.append("\\\"");
      case '\\' -> to.append("\\\\");
      case '\b' -> to.append("\\b");
      case '\f' -> to.append("\\f");
      case '\n' -> to.append("\\n");
      case '\r' -> to.append("\\r");
      case '\t' -> to.append("\\t");
      default -> to.append("\\u00").append(HEX.charAt(c >> 4)).append(HEX.charAt(c & 15));
    }
  }

  /** A number as ECMAScript writes a double (3.2.2.3). */
  public static void number(StringBuilder to, double number) {
    try {
      to.append(NumberToJSON.serializeNumber(number));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Any JSON, names sorted by their UTF-16 units (3.2.3). */
  public static void json(StringBuilder to, JsonNode json) {
    if (json.isObject()) {
      object(to, json);
    } else if (json.isArray()) {
      array(to, json);
    } else if (json.isTextual()) {
      string(to, json.textValue());
    } else if (json.isNumber()) {
      number(to, json.doubleValue());
    } else {
      to.append(json.asText());
    }
  }

  private static void object(StringBuilder to, JsonNode json) {
    List<String> names = new ArrayList<>();
    json.fieldNames().forEachRemaining(names::add);
    Collections.sort(names);
    to.append('{');
    for (String name : names) {
      if (to.charAt(to.length() - 1) != '{') {
        to.append(',');
      }
      string(to, name);
      to.append(':');
      json(to, json.get(name));
    }
    to.append('}');
  }

  private static void array(StringBuilder to, JsonNode json) {
    to.append('[');
    for (int i = 0; i < json.size(); i++) {
      if (i > 0) {
        to.append(',');
      }
      json(to, json.get(i));
    }
    to.append(']');
  }
}
