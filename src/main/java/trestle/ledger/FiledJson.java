package trestle.ledger;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.persistence.Column;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.formats.CanonicalJson;

/**
 * A filed row as the ledger writes it: every column under its database name, nulls left out (so
 * that a column added later changes no old line), instants in UTC to the microsecond, decimals as
 * strings.
 */
public final class FiledJson {
  /** The kind once more, where the row has a column that is itself called kind. */
  public static final String LEDGER_KIND = "ledger_kind";

  /** The version of such a kind from which on its lines have it. */
  public static final int LEDGER_KIND_SINCE = 2;

  private static final Map<Class<?>, List<Field>> FIELDS = new ConcurrentHashMap<>();

  private FiledJson() {}

  public static String canonical(Filed row) {
    Kind kind = row.getClass().getAnnotation(Kind.class);
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("kind", kind.value());
    json.put("version", kind.version());
    if (hidesKind(row.getClass())) {
      json.put(LEDGER_KIND, kind.value());
    }
    for (Field field : fields(row.getClass())) {
      put(json, field, valueOf(field, row));
    }
    return CanonicalJson.of(json);
  }

  /** Instants as the database will keep them, so that row and line say the same for ever. */
  static void settle(Filed row) {
    for (Field field : fields(row.getClass())) {
      if (valueOf(field, row) instanceof Instant instant) {
        try {
          field.set(row, instant.truncatedTo(ChronoUnit.MICROS));
        } catch (IllegalAccessException e) {
          throw new IllegalStateException(e);
        }
      }
    }
  }

  /** The columns that the JSON of a kind carries: a test compares them with the table's. */
  public static List<String> columns(Class<? extends Filed> kind) {
    return fields(kind).stream().map(FiledJson::column).toList();
  }

  /** Whether a column takes the place of the ledger's own word in the JSON. */
  public static boolean hidesKind(Class<?> kind) {
    return fields(kind).stream().anyMatch(field -> column(field).equals("kind"));
  }

  static Map<String, Field> fieldsByColumn(Class<? extends Filed> kind) {
    Map<String, Field> all = new LinkedHashMap<>();
    fields(kind).forEach(field -> all.put(column(field), field));
    return all;
  }

  /** Gives a new row what another of its kind says, but for what every filed row has. */
  static void copyOwn(Filed from, Filed to) throws IllegalAccessException {
    for (Field field : fields(from.getClass())) {
      if (field.getDeclaringClass() != Filed.class) {
        field.set(to, field.get(from));
      }
    }
  }

  /** The fields that are columns, in no order. */
  public static List<Field> fields(Class<?> kind) {
    return FIELDS.computeIfAbsent(kind, FiledJson::persistent);
  }

  private static List<Field> persistent(Class<?> kind) {
    List<Field> all = new ArrayList<>();
    for (Class<?> at = kind; at != Object.class; at = at.getSuperclass()) {
      for (Field field : at.getDeclaredFields()) {
        boolean column =
            !Modifier.isStatic(field.getModifiers())
                && !field.isSynthetic()
                && !field.isAnnotationPresent(Transient.class)
                && !field.getName().startsWith("$$");
        if (column) {
          field.setAccessible(true);
          all.add(field);
        }
      }
    }
    return List.copyOf(all);
  }

  /** The table whose rows are of a kind. */
  public static String table(Class<?> kind) {
    Table named = kind.getAnnotation(Table.class);
    return named != null && !named.name().isEmpty()
        ? named.name()
        : underscored(kind.getSimpleName());
  }

  /** The column that a field is kept in. */
  public static String column(Field field) {
    Column named = field.getAnnotation(Column.class);
    return named != null && !named.name().isEmpty() ? named.name() : underscored(field.getName());
  }

  private static String underscored(String name) {
    return name.replaceAll("([a-z0-9])([A-Z])", "$1_$2").toLowerCase(Locale.ROOT);
  }

  private static Object valueOf(Field field, Filed row) {
    try {
      return field.get(row);
    } catch (IllegalAccessException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void put(ObjectNode json, Field field, Object value) {
    String name = column(field);
    if (value == null) {
      return;
    }
    JdbcTypeCode type = field.getAnnotation(JdbcTypeCode.class);
    if (type != null && type.value() == SqlTypes.JSON) {
      json.set(
          name,
          value instanceof String text ? CanonicalJson.parse(text) : CanonicalJson.tree(value));
    } else if (value instanceof Boolean flag) {
      json.put(name, flag);
    } else if (value instanceof Integer || value instanceof Long) {
      json.put(name, ((Number) value).longValue());
    } else if (value instanceof BigDecimal decimal) {
      json.put(name, decimal.signum() == 0 ? "0" : decimal.stripTrailingZeros().toPlainString());
    } else if (value instanceof Instant instant) {
      json.put(name, instant.toString());
    } else if (value instanceof Object[] array) {
      json.set(name, array(List.of(array)));
    } else if (value instanceof Collection<?> list) {
      json.set(name, array(list));
    } else {
      json.put(name, value.toString());
    }
  }

  private static ArrayNode array(Collection<?> values) {
    ArrayNode array = JsonNodeFactory.instance.arrayNode();
    values.forEach(value -> array.add(value.toString()));
    return array;
  }
}
