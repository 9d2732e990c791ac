package trestle.ledger;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.lang.reflect.Constructor;
import java.lang.reflect.Field;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.formats.CanonicalJson;

/**
 * Makes the row again from the JSON of its line: what {@link FiledJson} wrote. So what one operator
 * filed can be filed by another, whatever kind it is.
 */
@ApplicationScoped
public class Refiling {
  private static final ObjectMapper JSON = new ObjectMapper();

  @Inject RefilingRepository repository;

  private volatile Map<String, Class<? extends Filed>> kinds;

  /** The version in which this program writes a kind; empty for a kind that it does not know. */
  public Optional<Integer> version(String kind) {
    return Optional.ofNullable(kinds().get(kind))
        .map(type -> type.getAnnotation(Kind.class).version());
  }

  /**
   * Whether a line's JSON says that it is of a kind and a version. Where a column called kind hides
   * the word in versions of before (docs/ledger.md), it must not say that it is of another kind.
   */
  public boolean saysItIs(JsonNode line, String kind, int version) {
    if (line.path("version").asInt() != version) {
      return false;
    }
    if (line.has(FiledJson.LEDGER_KIND)) {
      return line.path(FiledJson.LEDGER_KIND).asText().equals(kind);
    }
    String said = line.path("kind").asText();
    Class<? extends Filed> type = kinds().get(kind);
    boolean hidden =
        type != null && FiledJson.hidesKind(type) && version < FiledJson.LEDGER_KIND_SINCE;
    return said.equals(kind) || hidden && !isPlainly(line, kinds().get(said));
  }

  /** Whether the line's kind is its own word, no column's, and its columns are of that kind. */
  private static boolean isPlainly(JsonNode line, Class<? extends Filed> said) {
    if (said == null || FiledJson.hidesKind(said)) {
      return false;
    }
    Set<String> names = new HashSet<>(FiledJson.columns(said));
    names.addAll(List.of("kind", "version"));
    return line.properties().stream().allMatch(one -> names.contains(one.getKey()));
  }

  /** The columns of a kind, in the order of its class. */
  public List<String> columns(String kind) {
    return FiledJson.columns(kinds().get(kind));
  }

  /**
   * The row, with its own id and all that it says; where, when and by whom it is filed is told when
   * it is.
   *
   * @throws IllegalArgumentException in words, where this program has no such kind or column
   */
  public Filed row(String kind, JsonNode line) {
    Class<? extends Filed> type = kinds().get(kind);
    if (type == null) {
      throw new IllegalArgumentException("“" + kind + "” is no kind of record known here");
    }
    Map<String, Field> columns = FiledJson.fieldsByColumn(type);
    Filed row = make(type);
    for (Map.Entry<String, JsonNode> one : line.properties()) {
      boolean ofTheLine =
          one.getKey().equals("version")
              || one.getKey().equals(FiledJson.LEDGER_KIND)
              || one.getKey().equals("kind") && !columns.containsKey("kind");
      if (ofTheLine) {
        continue;
      }
      Field field = columns.get(one.getKey());
      if (field == null) {
        throw new IllegalArgumentException(
            "“" + kind + "” has no column “" + one.getKey() + "” known here");
      }
      set(row, field, value(kind, one.getKey(), field, one.getValue()));
    }
    return row;
  }

  private Map<String, Class<? extends Filed>> kinds() {
    if (kinds == null) {
      Map<String, Class<? extends Filed>> found = new TreeMap<>();
      repository.filed().forEach(type -> found.put(type.getAnnotation(Kind.class).value(), type));
      kinds = found;
    }
    return kinds;
  }

  private static Filed make(Class<? extends Filed> type) {
    try {
      Constructor<? extends Filed> made = type.getDeclaredConstructor();
      made.setAccessible(true);
      return made.newInstance();
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void set(Filed row, Field field, Object value) {
    try {
      field.set(row, value);
    } catch (IllegalAccessException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Object value(String kind, String column, Field field, JsonNode node) {
    try {
      return value(field, node);
    } catch (RuntimeException e) {
      throw new IllegalArgumentException(
          "“" + kind + "” has a value in “" + column + "” that can’t be read");
    }
  }

  private static Object value(Field field, JsonNode node) {
    Class<?> type = field.getType();
    JdbcTypeCode code = field.getAnnotation(JdbcTypeCode.class);
    if (code != null && code.value() == SqlTypes.JSON) {
      return type == String.class ? CanonicalJson.of(node) : JSON.convertValue(node, type);
    }
    if (type == boolean.class || type == Boolean.class) {
      return asked(node.isBoolean(), node).booleanValue();
    }
    if (type == int.class || type == Integer.class) {
      return asked(node.canConvertToInt(), node).intValue();
    }
    if (type == long.class || type == Long.class) {
      return asked(node.isIntegralNumber() && node.canConvertToLong(), node).longValue();
    }
    if (type.isArray()) {
      return JSON.convertValue(asked(node.isArray(), node), type);
    }
    String text = asked(node.isTextual(), node).textValue();
    if (type == String.class) {
      return text;
    }
    if (type == UUID.class) {
      return UUID.fromString(text);
    }
    if (type == Instant.class) {
      return Instant.parse(text);
    }
    if (type == LocalDate.class) {
      return LocalDate.parse(text);
    }
    if (type == BigDecimal.class) {
      return new BigDecimal(text);
    }
    throw new IllegalStateException("No way to read " + field);
  }

  private static JsonNode asked(boolean fits, JsonNode node) {
    if (!fits) {
      throw new IllegalArgumentException(node.getNodeType().toString());
    }
    return node;
  }
}
