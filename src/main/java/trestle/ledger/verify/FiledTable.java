package trestle.ledger.verify;

import java.lang.reflect.Constructor;
import java.lang.reflect.Field;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.FiledJson;
import trestle.ledger.Kind;
import trestle.ledger.LedgerAircraft;
import trestle.ledger.verify.FiledColumn.Shape;

/**
 * One kind of filed row as it lies in the database.
 *
 * @param kind the ledger's word
 * @param columns in the order of their names, as canonical JSON has them
 * @param aircraft the SQL of the aircraft that the ledger's line names
 */
record FiledTable(
    String kind, int version, String name, List<FiledColumn> columns, String aircraft) {
  private static final String VERSION = "version";

  static FiledTable of(Class<? extends Filed> type) {
    Kind kind = type.getAnnotation(Kind.class);
    Map<String, FiledColumn> columns = new TreeMap<>();
    for (Field field : FiledJson.fields(type)) {
      columns.put(FiledJson.column(field), FiledColumn.of(field));
    }
    beside(columns, FiledColumn.constant("kind", kind.value(), 1));
    beside(columns, FiledColumn.of(VERSION, Shape.WHOLE));
    if (FiledJson.hidesKind(type)) {
      beside(
          columns,
          FiledColumn.constant(FiledJson.LEDGER_KIND, kind.value(), FiledJson.LEDGER_KIND_SINCE));
    }
    return new FiledTable(
        kind.value(),
        kind.version(),
        FiledJson.table(type),
        List.copyOf(columns.values()),
        aircraftOf(type));
  }

  /** A column of the same name goes before what is written beside the columns. */
  private static void beside(Map<String, FiledColumn> columns, FiledColumn constant) {
    columns.merge(
        constant.name(), constant, (column, same) -> column.otherwise(constant.otherwise()));
  }

  /** Asks the class itself, with a mark in the place of its aircraft. */
  private static String aircraftOf(Class<? extends Filed> type) {
    UUID mark = UUID.randomUUID();
    try {
      Constructor<? extends Filed> maker = type.getDeclaredConstructor();
      maker.setAccessible(true);
      Filed blank = maker.newInstance();
      for (Field field : own(type)) {
        if (field.getType() == UUID.class) {
          field.setAccessible(true);
          Object before = field.get(blank);
          field.set(blank, mark);
          if (mark.equals(blank.ledgerAircraft())) {
            return asked(field);
          }
          field.set(blank, before);
        }
      }
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("A filed row can be made blank", e);
    }
    return "null::text";
  }

  /** The fields of the kind itself, not those that every filed row has. */
  private static List<Field> own(Class<?> type) {
    List<Field> own = new ArrayList<>();
    for (Class<?> at = type; at != Filed.class; at = at.getSuperclass()) {
      own.addAll(List.of(at.getDeclaredFields()));
    }
    return own;
  }

  private static String asked(Field field) {
    LedgerAircraft through = field.getAnnotation(LedgerAircraft.class);
    return through == null
        ? "t.\"" + FiledJson.column(field) + "\"::text"
        : "(select o.aircraft_id::text from %s o where o.operator_id = t.operator_id and o.id = t.%s)"
            .formatted(through.table(), through.by());
  }

  /**
   * The row's canonical JSON as a version of the kind wrote it, from its columns' texts in their
   * order.
   */
  void write(Utf8 to, Values row, long lineVersion) {
    to.add('{');
    for (int i = 0; i < columns.size(); i++) {
      FiledColumn column = columns.get(i);
      if (lineVersion >= column.since()) {
        byte[] value = row.bytes(i);
        if (value == null) {
          value = column.otherwise();
        }
        if (value == null && column.name().equals(VERSION)) {
          value = Long.toString(lineVersion).getBytes(StandardCharsets.US_ASCII);
        }
        if (value != null) {
          if (!to.endsWith('{')) {
            to.add(',');
          }
          column.write(to.add(column.label()), value);
        }
      }
    }
    to.add('}');
  }

  int index(String column) {
    for (int i = 0; i < columns.size(); i++) {
      if (columns.get(i).name().equals(column)) {
        return i;
      }
    }
    throw new IllegalArgumentException(name + " has no column " + column);
  }

  /** The texts of a row, by place, in UTF-8. */
  interface Values {
    byte[] bytes(int column);
  }
}
