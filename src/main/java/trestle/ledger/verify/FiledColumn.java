package trestle.ledger.verify;

import java.lang.reflect.Field;
import java.math.BigDecimal;
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
 * @param isKept false where the table has no such column
 * @param otherwise what is written where the row says nothing, or null for nothing at all
 */
record FiledColumn(String name, Shape shape, boolean isKept, String otherwise) {

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

  private static final int SECONDS_END = "2026-03-12 09:30:00".length();

  static FiledColumn of(Field field) {
    return new FiledColumn(FiledJson.column(field), shape(field), true, null);
  }

  FiledColumn otherwise(String word) {
    return new FiledColumn(name, shape, isKept, word);
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

  /** The column as a text that {@link #write} understands; in a session whose zone is UTC. */
  String asked() {
    if (!isKept) {
      return "null::text";
    }
    String quoted = "t.\"" + name + "\"";
    return switch (shape) {
      case TEXT -> quoted;
      case LIST -> "array_to_json(" + quoted + ")::text";
      default -> quoted + "::text";
    };
  }

  void write(StringBuilder to, String value) {
    switch (shape) {
      case TEXT -> CanonicalText.string(to, value);
      case PLAIN -> to.append('"').append(value).append('"');
      case FLAG -> to.append(value);
      case WHOLE -> whole(to, value);
      case DECIMAL -> decimal(to, value);
      case MOMENT -> moment(to, value);
      case JSON, LIST -> CanonicalText.json(to, CanonicalJson.parse(value));
    }
  }

  private static void whole(StringBuilder to, String value) {
    if (value.length() <= EXACT_DIGITS) {
      to.append(value);
    } else {
      CanonicalText.number(to, Double.parseDouble(value));
    }
  }

  /** Without zeros at the end, which the column may keep and the value does not have. */
  private static void decimal(StringBuilder to, String value) {
    int end = value.length();
    if (value.indexOf('.') >= 0) {
      while (value.charAt(end - 1) == '0') {
        end--;
      }
      if (value.charAt(end - 1) == '.') {
        end--;
      }
    }
    String plain = value.substring(0, end);
    to.append('"').append(plain.equals("-0") ? "0" : plain).append('"');
  }

  /** "2026-03-12 09:30:00.5+00" as Java writes an instant: "2026-03-12T09:30:00.500Z". */
  private static void moment(StringBuilder to, String value) {
    if (value.length() < SECONDS_END || !value.endsWith("+00") || value.charAt(4) != '-') {
      to.append('"').append(value).append('"');
      return;
    }
    String fraction = value.substring(SECONDS_END, value.length() - "+00".length());
    to.append('"').append(value, 0, 10).append('T').append(value, 11, SECONDS_END).append(fraction);
    if (!fraction.isEmpty()) {
      int digits = fraction.length() - 1;
      to.append("0".repeat(digits <= 3 ? 3 - digits : 6 - digits));
    }
    to.append("Z\"");
  }
}
