package trestle.formats;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Reads and writes {@link Json}: RFC 8259 in UTF-8 and nothing looser. */
public final class JsonText {

  /** Deeper than anything we read, shallow enough for the stack. */
  private static final int MOST_NESTING = 200;

  private static final JsonFactory FACTORY =
      JsonFactory.builder()
          .streamReadConstraints(
              StreamReadConstraints.builder()
                  .maxNestingDepth(MOST_NESTING)
                  .maxNumberLength(Integer.MAX_VALUE)
                  .maxNameLength(Integer.MAX_VALUE)
                  .maxStringLength(Integer.MAX_VALUE)
                  .build())
          .disable(JsonFactory.Feature.INTERN_FIELD_NAMES)
          .disable(JsonFactory.Feature.CANONICALIZE_FIELD_NAMES)
          .build();

  private JsonText() {}

  /** Reads one JSON text and nothing after it. */
  public static Json parse(byte[] utf8) throws MalformedJson {
    try {
      return parse(StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(utf8)).toString());
    } catch (CharacterCodingException e) {
      throw new MalformedJson("is not UTF-8 text");
    }
  }

  /** Reads one JSON text and nothing after it. */
  public static Json parse(String text) throws MalformedJson {
    try (JsonParser parser = FACTORY.createParser(text)) {
      if (parser.nextToken() == null) {
        throw new MalformedJson("is empty");
      }
      Json json = value(parser);
      if (parser.nextToken() != null) {
        throw new MalformedJson("has something after the end of its JSON" + place(parser));
      }
      return json;
    } catch (StreamConstraintsException e) {
      throw new MalformedJson("is nested too deeply");
    } catch (JsonProcessingException e) {
      throw new MalformedJson("is not well-formed JSON" + place(e));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The text of a JSON value, without blanks. */
  public static String write(Json json) {
    StringWriter text = new StringWriter();
    try (JsonGenerator generator = FACTORY.createGenerator(text)) {
      write(json, generator);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  private static Json value(JsonParser parser) throws IOException {
    return switch (parser.currentToken()) {
      case START_OBJECT -> object(parser);
      case START_ARRAY -> array(parser);
      case VALUE_STRING -> new Json.Str(wellFormed(parser.getText()));
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> new Json.Num(parser.getText());
      case VALUE_TRUE -> new Json.Bool(true);
      case VALUE_FALSE -> new Json.Bool(false);
      default -> Json.NULL;
    };
  }

  private static Json object(JsonParser parser) throws IOException {
    List<Json.Member> members = new ArrayList<>();
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      String name = wellFormed(parser.currentName());
      parser.nextToken();
      members.add(new Json.Member(name, value(parser)));
    }
    return new Json.Obj(members);
  }

  private static Json array(JsonParser parser) throws IOException {
    List<Json> items = new ArrayList<>();
    while (parser.nextToken() != JsonToken.END_ARRAY) {
      items.add(value(parser));
    }
    return new Json.Arr(items);
  }

  /** Half a surrogate pair, which an escape can write, has no place in UTF-8. */
  private static String wellFormed(String text) {
    StringBuilder mended = null;
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (Character.isHighSurrogate(c)
          && i + 1 < text.length()
          && Character.isLowSurrogate(text.charAt(i + 1))) {
        i++;
      } else if (Character.isSurrogate(c)) {
        mended = mended == null ? new StringBuilder(text) : mended;
        mended.setCharAt(i, '\ufffd');
      }
    }
    return mended == null ? text : mended.toString();
  }

  private static void write(Json json, JsonGenerator to) throws IOException {
    if (json instanceof Json.Obj object) {
      to.writeStartObject();
      for (Json.Member member : object.members()) {
        to.writeFieldName(member.name());
        write(member.value(), to);
      }
      to.writeEndObject();
    } else if (json instanceof Json.Arr array) {
      to.writeStartArray();
      for (Json item : array.items()) {
        write(item, to);
      }
      to.writeEndArray();
    } else if (json instanceof Json.Str string) {
      to.writeString(string.text());
    } else if (json instanceof Json.Num number) {
      to.writeNumber(number.text());
    } else if (json instanceof Json.Bool bool) {
      to.writeBoolean(bool.value());
    } else {
      to.writeNull();
    }
  }

  private static String place(JsonParser parser) {
    return place(parser.currentTokenLocation());
  }

  private static String place(JsonProcessingException e) {
    return e.getLocation() == null ? "" : place(e.getLocation());
  }

  private static String place(JsonLocation at) {
    return " (line " + at.getLineNr() + ", column " + at.getColumnNr() + ")";
  }
}
