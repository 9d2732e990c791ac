package trestle.ledger.verify;

import java.lang.reflect.Field;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.formats.CanonicalJson;
import trestle.formats.CanonicalText;
import trestle.ledger.FiledJson;

/**
 * A column of a filed table, or what the ledger writes beside the columns: how the database is
 * asked for it, and how the ledger writes it.
 *
 * @param label the name as it stands in JSON
 * @param isKept false where the table has no such column
 * @param since the version of the kind from which on a line has it
 * @param otherwise what is written where the row says nothing, or null for nothing at all
 */
record FiledColumn(
    String name, byte[] label, Shape shape, boolean isKept, int since, byte[] otherwise) {

  enum Shape {
    TEXT,
    /** Text in which nothing ever needs escaping: ids and dates. */
    PLAIN,
    FLAG,
    WHOLE,
    DECIMAL,
    MOMENT,
    JSON,
    LIST
  }

  /** Numbers with more digits may not be exact as a double, which is how JSON counts. */
  private static final int EXACT_DIGITS = 15;

  private static final byte[] TRUE = "true".getBytes(StandardCharsets.US_ASCII);
  private static final byte[] FALSE = "false".getBytes(StandardCharsets.US_ASCII);
  private static final int SECONDS_END = "2026-03-12 09:30:00".length();

  static FiledColumn of(Field field) {
    return new FiledColumn(
        FiledJson.column(field), label(FiledJson.column(field)), shape(field), true, 1, null);
  }

  /** What stands beside the columns, and is told when it is written. */
  static FiledColumn of(String name, Shape shape) {
    return new FiledColumn(name, label(name), shape, false, 1, null);
  }

  /** What is written of every row of the kind alike. */
  static FiledColumn constant(String name, String word, int since) {
    return new FiledColumn(
        name, label(name), Shape.PLAIN, false, since, word.getBytes(StandardCharsets.US_ASCII));
  }

  FiledColumn otherwise(byte[] word) {
    return new FiledColumn(name, label, shape, isKept, since, word);
  }

  private static byte[] label(String name) {
    return ('"' + name + "\":").getBytes(StandardCharsets.US_ASCII);
  }

  private static Shape shape(Field field) {
    Class<?> type = field.getType();
    JdbcTypeCode code = field.getAnnotation(JdbcTypeCode.class);
    if (code != null && code.value() == SqlTypes.JSON) {
      return Shape.JSON;
    } else if (type.isArray()) {
      return Shape.LIST;
    } else if (type == UUID.class || type == LocalDate.class) {
      return Shape.PLAIN;
    } else if (type == boolean.class || type == Boolean.class) {
      return Shape.FLAG;
    } else if (type == BigDecimal.class) {
      return Shape.DECIMAL;
    } else if (type == Instant.class) {
      return Shape.MOMENT;
    } else if (type == String.class) {
      return Shape.TEXT;
    } else if (type == int.class
        || type == long.class
        || type == Integer.class
        || type == Long.class) {
      return Shape.WHOLE;
    }
    throw new IllegalStateException("Nobody said how the ledger writes " + field);
  }

  /**
   * The column as the database writes it of itself, which {@link #write} understands; in a session
   * whose zone is UTC.
   */
  String asked() {
    String quoted = "t.\"" + name + "\"";
    if (!isKept) {
      return "null::text";
    }
    return shape == Shape.LIST ? "array_to_json(" + quoted + ")::text" : quoted;
  }

  void write(Utf8 to, byte[] value) {
    switch (shape) {
      case TEXT -> text(to, value);
      case PLAIN -> to.add('"').add(value).add('"');
      case FLAG -> to.add(value[0] == 't' ? TRUE : FALSE);
      case WHOLE -> whole(to, value);
      case DECIMAL -> decimal(to, value);
      case MOMENT -> moment(to, value);
      case JSON, LIST -> json(to, value);
    }
  }

  /** What must be escaped is below 0x80: the bytes of all other letters go by. */
  private static void text(Utf8 to, byte[] value) {
    for (byte b : value) {
      if (b >= 0 && b < ' ' || b == '"' || b == '\\') {
        StringBuilder escaped = new StringBuilder();
        CanonicalText.string(escaped, new String(value, StandardCharsets.UTF_8));
        to.add(escaped);
        return;
      }
    }
    to.add('"').add(value).add('"');
  }

  private static void whole(Utf8 to, byte[] value) {
    if (value.length <= EXACT_DIGITS) {
      to.add(value);
    } else {
      StringBuilder number = new StringBuilder();
      CanonicalText.number(
          number, Double.parseDouble(new String(value, StandardCharsets.US_ASCII)));
      to.add(number);
    }
  }

  /** Without zeros at the end, which the column may keep and the value does not have. */
  private static void decimal(Utf8 to, byte[] value) {
    int end = value.length;
    if (new String(value, StandardCharsets.US_ASCII).indexOf('.') >= 0) {
      while (value[end - 1] == '0') {
        end--;
      }
      if (value[end - 1] == '.') {
        end--;
      }
    }
    boolean isNothing = end == 2 && value[0] == '-' && value[1] == '0';
    to.add('"').add(value, isNothing ? 1 : 0, end).add('"');
  }

  /** "2026-03-12 09:30:00.5+00" as Java writes an instant: "2026-03-12T09:30:00.500Z". */
  private static void moment(Utf8 to, byte[] value) {
    int end = value.length - "+00".length();
    if (end < SECONDS_END || value[4] != '-' || value[end] != '+' || value[end + 1] != '0') {
      to.add('"').add(value).add('"');
      return;
    }
    to.add('"').add(value, 0, 10).add('T').add(value, 11, end);
    if (end > SECONDS_END) {
      int digits = end - SECONDS_END - 1;
      for (int more = digits <= 3 ? 3 - digits : 6 - digits; more > 0; more--) {
        to.add('0');
      }
    }
    to.add('Z').add('"');
  }

  private static void json(Utf8 to, byte[] value) {
    StringBuilder json = new StringBuilder();
    CanonicalText.json(json, CanonicalJson.parse(new String(value, StandardCharsets.UTF_8)));
    to.add(json);
  }
}
